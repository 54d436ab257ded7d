#include <catch2/catch.hpp>

#include "tests/support/circuit_text.h"
#include "ui/view/session_text.h"

namespace halfsplit::view {

TEST_CASE("How much does nothing is one sentence, with what does something before it or alone") {
    const model::Circuit circuit = test::circuit_file("circuits/horn.circuit.xml");
    const practice::Observed rest{practice::kTheRest, "quiet", "2 things that stand still"};
    practice::Entry entry;
    entry.observed = {rest};
    CHECK(entry_words(circuit, entry).observed.front().sentence == "nothing but 2 things that stand still");
    CHECK(entry_text(circuit, entry).find("nothing but  2 things") != std::string::npos);
    entry.observed = {{"P3", "sounds", "sounds"}, rest};
    const EntryWords words = entry_words(circuit, entry);
    CHECK(words.observed[0].sentence == "P3 Horn, low note: sounds");
    CHECK(words.observed[1].sentence == "and 2 things that stand still");
}

}  // namespace halfsplit::view
