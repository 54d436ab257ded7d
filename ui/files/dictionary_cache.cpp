#include "ui/files/dictionary_cache.h"

#include <algorithm>
#include <boost/uuid/name_generator_sha1.hpp>
#include <boost/uuid/uuid_io.hpp>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <optional>

#include "engine/diagnosis/dictionary/blank.h"
#include "ui/files/packed_dictionary.h"

namespace halfsplit::files {

using diagnosis::Dictionary;
using diagnosis::DictionaryOptions;

namespace {

namespace fs = std::filesystem;

/// Raised whenever the same circuit is predicted otherwise than before.
constexpr int kWayOfPredicting = 2;

/// What tells one dictionary from another, in 36 characters: a version 5 UUID (RFC 9562) of all that decides.
std::string id_of(const CircuitOnDisk& circuit, const Dictionary& blank, const DictionaryOptions& options) {
    std::string all = circuit.content;
    const auto add = [&all](const std::string& text) { all += text + '\n'; };
    for (const std::string& state : blank.states) add(state);
    for (const diagnosis::PossibleFault& each : blank.faults)
        add(each.fault.text + " " + std::to_string(each.fault.value));
    for (const diagnosis::Finding& each : blank.findings) add(each.at + " " + each.against);
    add(std::to_string(kWayOfPredicting));
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

bool agree(float one, float other) {
    constexpr float kApart = 1e-4F;  // a meter's last digit
    return std::abs(one - other) < kApart || (std::isnan(one) && std::isnan(other));
}

std::vector<float> sound_rows(const Dictionary& dictionary) {
    std::vector<float> rows;
    for (int state = 0; state < static_cast<int>(dictionary.states.size()); ++state) {
        const auto row =
            dictionary.values.begin() + static_cast<std::ptrdiff_t>(dictionary.row_start(state, 0));
        rows.insert(rows.end(), row, row + std::ssize(dictionary.findings));
    }
    return rows;
}

/// Not, where the sound vehicle was kept otherwise than as this program predicts it.
bool take_kept(const std::string& path, const std::string& id, int threads, Dictionary& dictionary) {
    const auto bytes = bytes_at(path);
    if (!bytes || !bytes->starts_with(id)) return false;
    const std::vector<float> sound = sound_rows(dictionary);
    return unpack(std::string_view(*bytes).substr(id.size()), dictionary, threads) &&
           std::ranges::equal(sound, sound_rows(dictionary), agree);
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
    if (take_kept(path, id, options.threads, *blank)) return blank;
    blank = Dictionary{};  // a whole vehicle's takes as much memory as the one that is made now
    auto made = diagnosis::make_dictionary(circuit.circuit, options, tell);
    if (!made) return made;
    if (const auto bytes = packed(*made, kMostKeptBytes - id.size(), options.threads))
        write_atomically(path, id + *bytes);
    return made;
}

}  // namespace halfsplit::files
