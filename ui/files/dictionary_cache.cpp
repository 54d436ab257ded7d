#include "ui/files/dictionary_cache.h"

#include <algorithm>
#include <boost/uuid/name_generator_sha1.hpp>
#include <boost/uuid/uuid_io.hpp>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <optional>

#include "engine/diagnosis/dictionary/blank.h"
#include "engine/diagnosis/dictionary/dictionary_bytes.h"
#include "engine/diagnosis/dictionary/row_anew.h"

namespace halfsplit::files {

using diagnosis::Dictionary;
using diagnosis::DictionaryOptions;

namespace {

namespace fs = std::filesystem;

/// What tells one dictionary from another, in 36 characters: a version 5 UUID (RFC 9562) of all that decides.
std::string id_of(const CircuitOnDisk& circuit, const Dictionary& blank, const DictionaryOptions& options) {
    std::string all = circuit.content;
    const auto add = [&all](const std::string& text) { all += text + '\n'; };
    for (const std::string& state : blank.states) add(state);
    for (const diagnosis::PossibleFault& each : blank.faults)
        add(each.fault.text + " " + std::to_string(each.fault.value));
    for (const diagnosis::Finding& each : blank.findings) add(each.at + " " + each.against);
    add(std::to_string(options.settle_anew) + " " + std::to_string(options.settles_at_most));
    return to_string(boost::uuids::name_generator_sha1(boost::uuids::ns::oid())(all));
}

std::optional<std::string> bytes_at(const std::string& path) {
    std::error_code error;
    const auto size = fs::file_size(path, error);
    if (error || size > kMostKeptBytes) return std::nullopt;
    std::string bytes(size, '\0');
    std::ifstream file(path, std::ios::binary);
    file.read(bytes.data(), static_cast<std::streamsize>(size));
    if (!file) return std::nullopt;
    return bytes;
}

bool agree(double one, double other) {
    constexpr double kApart = 1e-4;  // a meter's last digit
    return std::abs(one - other) < kApart || (std::isnan(one) && std::isnan(other));
}

/// Whether the sound vehicle is as this program predicts it.
bool is_of_this_program(const model::Circuit& circuit, const Dictionary& dictionary) {
    std::vector<float> row(dictionary.findings.size());
    for (int state = 0; state < static_cast<int>(dictionary.states.size()); ++state) {
        const auto* steps = circuit.find_state(dictionary.states[at(state)]);
        row_anew(circuit, *steps, {}, dictionary.findings, dictionary.pulses[at(state)], row);
        for (int finding = 0; finding < static_cast<int>(row.size()); ++finding)
            if (!agree(static_cast<double>(row[at(finding)]), dictionary.value(state, 0, finding)))
                return false;
    }
    return true;
}

bool take_kept(const CircuitOnDisk& circuit, const std::string& path, const std::string& id,
               Dictionary& dictionary) {
    const auto bytes = bytes_at(path);
    return bytes && bytes->starts_with(id) &&
           diagnosis::from_bytes(std::string_view(*bytes).substr(id.size()), dictionary) &&
           is_of_this_program(circuit.circuit, dictionary);
}

}  // namespace

std::string dictionary_path(const std::string& circuit_path) {
    const fs::path path(circuit_path);
    std::string name = path.filename().string();
    for (const std::string ending : {".xml", ".circuit"})
        if (name.ends_with(ending)) name.resize(name.size() - ending.size());
    return (path.parent_path() / ("." + name + ".dictionary")).string();
}

tl::expected<Dictionary, Diagnostics> kept_dictionary(const CircuitOnDisk& circuit,
                                                      const std::string& circuit_path,
                                                      const DictionaryOptions& options,
                                                      const diagnosis::TellDictionary& tell) {
    auto blank = diagnosis::blank_dictionary(circuit.circuit, options);
    if (!blank) return blank;
    const std::string id = id_of(circuit, *blank, options);
    const std::string path = dictionary_path(circuit_path);
    if (take_kept(circuit, path, id, *blank)) return blank;
    auto made = diagnosis::make_dictionary(circuit.circuit, options, tell);
    if (made && made->values.size() * sizeof(float) < kMostKeptBytes)
        write_atomically(path, id + diagnosis::to_bytes(*made));
    return made;
}

}  // namespace halfsplit::files
