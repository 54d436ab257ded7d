#include "engine/diagnosis/sheet/sign_words.h"

#include <algorithm>
#include <array>
#include <utility>

#include "engine/base/index.h"
#include "engine/base/nearest.h"

namespace halfsplit::diagnosis {

namespace {

/// What it is called where there is nothing, little, all of it; of a fuse, whole and blown.
struct Words {
    std::string_view none;
    std::string_view weak;
    std::string_view works;
    std::string_view blown;
};

Words words_of(Shows shows) {
    switch (shows) {
        case Shows::filament:
        case Shows::string:
            return {"dark", "dim", "lit", ""};
        case Shows::rotor:
            return {"still", "slow", "runs", ""};
        case Shows::sound:
            return {"silent", "faint", "sounds", ""};
        case Shows::heat:
            return {"cold", "lukewarm", "warm", ""};
        case Shows::plunger:
            return {"let go", "weak", "pulled", ""};
        case Shows::fuse:
            return {"whole", "", "", "blown"};
        case Shows::lock:
            return {"unlocked", "half way", "locked", ""};
        case Shows::travel:
            return {"0 %", "part way", "100 %", ""};
    }
    return {};
}

using Word = std::pair<std::string_view, Sign>;

constexpr std::array kOfAnyLoad{
    Word{"no", Sign::none},       Word{"off", Sign::none},         Word{"none", Sign::none},
    Word{"dead", Sign::none},     Word{"nothing", Sign::none},     Word{"weak", Sign::weak},
    Word{"little", Sign::weak},   Word{"poor", Sign::weak},        Word{"yes", Sign::works},
    Word{"on", Sign::works},      Word{"works", Sign::works},      Word{"ok", Sign::works},
    Word{"good", Sign::works},    Word{"on and off", Sign::works}, Word{"blinks", Sign::works},
    Word{"flashes", Sign::works}, Word{"bright", Sign::works},     Word{"hot", Sign::works}};

// Of what stands somewhere, yes and no could mean either, and are not taken.
constexpr std::array kOfLocks{Word{"open", Sign::none}, Word{"shut", Sign::works}};
constexpr std::array kOfTravels{Word{"0", Sign::none},        Word{"0%", Sign::none},
                                Word{"half way", Sign::weak}, Word{"between", Sign::weak},
                                Word{"100", Sign::works},     Word{"100%", Sign::works}};

constexpr std::array kOfFuses{Word{"ok", Sign::none}, Word{"good", Sign::none}, Word{"intact", Sign::none},
                              Word{"melted", Sign::blown}};

std::string in_small_letters(std::string_view text) {
    std::string small(text);
    for (char& letter : small)
        if (letter >= 'A' && letter <= 'Z') letter = static_cast<char>(letter - 'A' + 'a');
    return small;
}

template <class Table>
std::optional<Sign> looked_up(const Table& table, std::string_view word) {
    const auto found = std::ranges::find(table, word, &Word::first);
    return found == table.end() ? std::nullopt : std::optional(found->second);
}

}  // namespace

std::string_view sign_word(Shows shows, Sign sign) {
    const Words words = words_of(shows);
    const std::array all{words.none, words.weak, words.works, words.blown};
    return all[at(static_cast<int>(sign))];
}

std::optional<Sign> read_sign(Shows shows, std::string_view text) {
    const std::string word = in_small_letters(text);
    if (word.empty()) return std::nullopt;
    for (const Sign sign : {Sign::none, Sign::weak, Sign::works, Sign::blown})
        if (sign_word(shows, sign) == word) return sign;
    switch (shows) {
        case Shows::fuse:
            return looked_up(kOfFuses, word);
        case Shows::lock:
            return looked_up(kOfLocks, word);
        case Shows::travel:
            return looked_up(kOfTravels, word);
        default:
            return looked_up(kOfAnyLoad, word);
    }
}

std::string expected_words(Shows shows) {
    const Words words = words_of(shows);
    if (shows == Shows::fuse) return listed(std::vector<std::string_view>{words.none, words.blown});
    return listed(std::vector<std::string_view>{words.works, words.weak, words.none});
}

}  // namespace halfsplit::diagnosis
