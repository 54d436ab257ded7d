#pragma once

#include <array>
#include <cstdint>
#include <random>
#include <string>
#include <string_view>
#include <vector>

namespace halfsplit::fuzz {

/// Changes a circuit file so that it mostly stays XML: bytes changed at random are nearly always stopped by
/// the first check of well-formedness and reach nothing behind it.
class TextMutator {
  public:
    explicit TextMutator(unsigned seed) : random_(seed) {}

    std::string mutate(std::string text) {
        switch (below(4)) {
            case 0:
                replace(text, pick(spans(text, "\"", "\"")), other_value(text));
                break;
            case 1:
                replace(text, pick(spans(text, "<", ">")), "");
                break;
            case 2:
                insert_copy(text, pick(spans(text, "<", ">")));
                break;
            default:
                replace(text, pick(spans(text, " ", "=")), copy_of(text, pick(spans(text, " ", "="))));
                break;
        }
        return text;
    }

  private:
    struct Span {
        std::size_t begin = 0;
        std::size_t size = 0;
    };

    std::size_t below(std::size_t limit) { return random_() % limit; }

    /// Everything from an `open` to the next `close`, both inclusive.
    static std::vector<Span> spans(std::string_view text, std::string_view open, std::string_view close) {
        std::vector<Span> found;
        std::size_t begin = text.find(open);
        while (begin != std::string_view::npos) {
            const std::size_t end = text.find(close, begin + 1);
            if (end == std::string_view::npos) break;
            found.push_back({begin, end + 1 - begin});
            begin = text.find(open, end + (open == close ? 1 : 0));
        }
        return found;
    }

    Span pick(const std::vector<Span>& spans) { return spans.empty() ? Span{} : spans[below(spans.size())]; }

    static std::string copy_of(const std::string& text, Span span) {
        return text.substr(span.begin, span.size);
    }

    static void replace(std::string& text, Span span, const std::string& with) {
        text.replace(span.begin, span.size, with);
    }

    void insert_copy(std::string& text, Span span) {
        const Span before = pick(spans(text, "<", ">"));
        text.insert(before.begin, copy_of(text, span));
    }

    std::string other_value(const std::string& text) {
        constexpr std::array<std::string_view, 14> kValues{
            "",    "0",    "-1",   "1e9", "1e-9", "1e999",         "1,5",
            "nan", "body", "none", "G1",  "G1.+", "b.circuit.xml", "../x"};
        if (below(2) == 0) return copy_of(text, pick(spans(text, "\"", "\"")));
        return "\"" + std::string(kValues[below(kValues.size())]) + "\"";
    }

    std::minstd_rand random_;
};

}  // namespace halfsplit::fuzz
