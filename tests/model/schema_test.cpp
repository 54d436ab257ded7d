#include "engine/model/schema.h"

#include <catch2/catch.hpp>

#include "engine/model/manual.h"
#include "engine/model/part_kind.h"
#include "engine/model/structure.h"
#include "tests/support/files.h"

using namespace halfsplit;

TEST_CASE("circuits/circuit.xsd is what the declarations say (halfsplit parts --schema writes it)") {
    const auto file = test::read_file(test::project_file("circuits/circuit.xsd"));
    REQUIRE(file);
    CHECK((*file == model::circuit_schema()));
}

TEST_CASE("circuits/PARTS.md is what the declarations say (halfsplit parts --manual writes it)") {
    const auto file = test::read_file(test::project_file("circuits/PARTS.md"));
    REQUIRE(file);
    CHECK((*file == model::parts_manual()));
}

TEST_CASE("The manual names every kind, attribute, pin, condition and fault") {
    const std::string manual = model::parts_manual();
    const auto names = [&](std::string_view name) {
        return manual.find("`" + std::string(name) + "`") != std::string::npos;
    };
    for (const model::PartKind* kind : model::part_kinds()) {
        INFO(kind->element);
        CHECK(manual.find("`<" + std::string(kind->element) + ">`") != std::string::npos);
        for (const auto& number : kind->numbers) CHECK(names(number.name));
        for (const auto& word : kind->words) CHECK(names(word.name));
        for (const auto& pin : kind->pins) CHECK(names(pin.id));
        for (const auto& condition : kind->conditions) CHECK(names(condition.id));
        for (const auto& fault : kind->faults) CHECK(names(fault.kind));
    }
}

TEST_CASE("No name of a declaration collides with another of the same part") {
    for (const model::PartKind* kind : model::part_kinds()) {
        INFO(kind->element);
        std::vector<std::string_view> names{"id"};
        for (const auto& number : kind->numbers) names.push_back(number.name);
        for (const auto& word : kind->words) names.push_back(word.name);
        for (const auto& number : model::common_numbers()) names.push_back(number.name);
        for (const auto& word : model::common_words()) names.push_back(word.name);
        std::sort(names.begin(), names.end());
        CHECK(std::adjacent_find(names.begin(), names.end()) == names.end());
    }
}
