#pragma once

#include <string>

#include <tl/expected.hpp>

#include "engine/diagnosis/dictionary/make_dictionary.h"
#include "ui/files/text_files.h"

namespace halfsplit::files {

/// The name that a dictionary of this circuit file is kept under, beside it: "circuits/.horn.dictionary".
std::string dictionary_path(const std::string& circuit_path);

/// A dictionary is not kept where, packed, it would take more bytes than this of somebody's folder.
inline constexpr std::size_t kMostKeptBytes = std::size_t{256} << 20U;

/// The circuit's dictionary: the one kept beside its file if that is of the same content and options, else
/// made now and, where the folder can be written to, kept in its stead. What was kept by a program that
/// predicted otherwise is recognised by its sound vehicle, which is settled anew.
tl::expected<diagnosis::Dictionary, Diagnostics> kept_dictionary(const CircuitOnDisk& circuit,
                                                                 const std::string& circuit_path,
                                                                 const diagnosis::DictionaryOptions& options,
                                                                 const diagnosis::TellDictionary& tell);

}  // namespace halfsplit::files
