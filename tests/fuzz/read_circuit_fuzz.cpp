#include <algorithm>
#include <cstdint>
#include <string>
#include <string_view>

#include "engine/model/part_view.h"
#include "engine/model/read_circuit.h"
#include "tests/fuzz/text_mutator.h"

namespace {

using halfsplit::model::TextSource;

/// The input is one file, or several with a line of this between them: the first is the circuit, the second
/// is what it includes as "b.circuit.xml", the third "c.circuit.xml".
constexpr std::string_view kNextFile = "\n==== next file ====\n";

/// What every control unit does: charts have a target of their own.
constexpr std::string_view kAnyBehaviour =
    "<scxml xmlns='http://www.w3.org/2005/07/scxml' version='1.0'><state id='a'/></scxml>";

tl::expected<std::string, std::string> file_of(std::string_view input, const std::string& path) {
    if (path.ends_with(".scxml")) return std::string(kAnyBehaviour);
    constexpr std::string_view kNames = "abc";
    for (const char name : kNames) {
        const std::size_t end = input.find(kNextFile);
        if (path == std::string(1, name) + ".circuit.xml") return std::string(input.substr(0, end));
        if (end == std::string_view::npos) break;
        input.remove_prefix(end + kNextFile.size());
    }
    return tl::unexpected(std::string("no such file"));
}

/// Whatever is read without error can be asked by its own names.
void check(const halfsplit::model::Circuit& circuit) {
    for (const auto& wire : circuit.wires)
        for (const auto end : {wire.from, wire.to})
            if (!circuit.find_pin(circuit.point_name(end))) __builtin_trap();
    const halfsplit::model::Quantities world;  // every quantity takes what its kind assumes
    for (const auto& part : circuit.parts) {
        if (part.numbers.size() != part.kind->numbers.size()) __builtin_trap();
        if (part.words.size() != part.kind->words.size()) __builtin_trap();
        if (part.kind->electrics == nullptr) __builtin_trap();
        const halfsplit::model::PartView view(part, part.numbers, world, circuit.nominal_v);
        part.kind->electrics(view);
    }
}

}  // namespace

extern "C" std::size_t LLVMFuzzerMutate(std::uint8_t* data, std::size_t size, std::size_t max_size);

extern "C" std::size_t LLVMFuzzerCustomMutator(std::uint8_t* data, std::size_t size, std::size_t max_size,
                                               unsigned seed) {
    constexpr unsigned kBytesEvery = 4;  // one mutation in four is of bytes, for what reads bytes
    if (seed % kBytesEvery == 0) return LLVMFuzzerMutate(data, size, max_size);
    const std::string text = halfsplit::fuzz::TextMutator(seed).mutate({data, data + size});
    const std::size_t new_size = std::min(text.size(), max_size);
    std::copy_n(text.begin(), new_size, data);
    return new_size;
}

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string_view input(reinterpret_cast<const char*>(data), size);
    const TextSource source = [input](const std::string& path) { return file_of(input, path); };
    const auto circuit = halfsplit::model::read_circuit("a.circuit.xml", source);
    if (circuit)
        check(*circuit);
    else if (circuit.error().empty())
        __builtin_trap();
    return 0;
}
