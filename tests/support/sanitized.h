#pragma once

// clang says so by __has_feature, g++ by a macro of its own.
#if defined(__has_feature)
#if __has_feature(address_sanitizer)
#define HALFSPLIT_ADDRESS_SANITIZER
#endif
#elif defined(__SANITIZE_ADDRESS__)
#define HALFSPLIT_ADDRESS_SANITIZER
#endif

namespace halfsplit::test {

/// Whether this is the sanitizers' build: there everything takes twenty times as long, and a part of what is
/// compared number by number elsewhere is enough to go every way through the code.
#ifdef HALFSPLIT_ADDRESS_SANITIZER
inline constexpr bool kSanitized = true;
#else
inline constexpr bool kSanitized = false;
#endif

}  // namespace halfsplit::test
