#include "engine/diagnosis/dictionary/dictionary_bytes.h"

#include <algorithm>
#include <boost/crc.hpp>
#include <cstdint>
#include <cstring>

namespace halfsplit::diagnosis {

namespace {

/// The byte order shows in the first number, the layout's version in the second.
constexpr std::uint32_t kMark = 0x48534443;
constexpr std::uint32_t kVersion = 1;

struct Header {
    std::uint32_t mark = kMark;
    std::uint32_t version = kVersion;
    std::uint64_t states = 0;
    std::uint64_t rows = 0;
    std::uint64_t findings = 0;
    std::uint32_t checksum = 0;  ///< of all that follows
    std::uint32_t unused = 0;    ///< fills the last eight bytes
};

Header header_for(const Dictionary& dictionary) {
    Header header;
    header.states = dictionary.states.size();
    header.rows = at(dictionary.rows());
    header.findings = dictionary.findings.size();
    return header;
}

std::uint32_t checksum_of(std::string_view bytes) {
    boost::crc_32_type crc;
    crc.process_bytes(bytes.data(), bytes.size());
    return crc.checksum();
}

bool is_told(unsigned char byte) {
    return byte <= static_cast<unsigned char>(Told::not_at_all);
}

}  // namespace

std::string to_bytes(const Dictionary& dictionary) {
    const std::size_t values_size = dictionary.values.size() * sizeof(float);
    std::string bytes(sizeof(Header) + values_size + dictionary.told.size(), '\0');
    char* const values = bytes.data() + sizeof(Header);
    std::memcpy(values, dictionary.values.data(), values_size);
    std::memcpy(values + values_size, dictionary.told.data(), dictionary.told.size());
    Header header = header_for(dictionary);
    header.checksum = checksum_of(std::string_view(bytes).substr(sizeof(Header)));
    std::memcpy(bytes.data(), &header, sizeof(Header));
    return bytes;
}

bool from_bytes(std::string_view bytes, Dictionary& dictionary) {
    const std::size_t told_count = dictionary.states.size() * at(dictionary.rows());
    const std::size_t value_count = told_count * dictionary.findings.size();
    if (bytes.size() != sizeof(Header) + value_count * sizeof(float) + told_count) return false;
    const std::string_view content = bytes.substr(sizeof(Header));
    Header expected = header_for(dictionary);
    expected.checksum = checksum_of(content);
    if (std::memcmp(bytes.data(), &expected, sizeof(Header)) != 0) return false;
    const std::string_view told = content.substr(value_count * sizeof(float));
    if (!std::ranges::all_of(told, [](char byte) { return is_told(static_cast<unsigned char>(byte)); }))
        return false;
    dictionary.values.resize(value_count);
    dictionary.told.resize(told_count);
    std::memcpy(dictionary.values.data(), content.data(), value_count * sizeof(float));
    std::ranges::transform(told, dictionary.told.begin(),
                           [](char byte) { return static_cast<Told>(static_cast<unsigned char>(byte)); });
    return true;
}

}  // namespace halfsplit::diagnosis
