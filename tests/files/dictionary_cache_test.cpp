#include <catch2/catch.hpp>

#include <unistd.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>

#include "tests/support/files.h"
#include "ui/files/dictionary_cache.h"
#include "ui/files/packed_dictionary.h"

using namespace halfsplit;
namespace fs = std::filesystem;

namespace {

/// A folder with the horn circuit in it, gone at the end.
class Folder {
  public:
    Folder() : path_(fs::temp_directory_path() / ("halfsplit-cache-" + std::to_string(getpid()))) {
        fs::create_directories(path_);
        fs::copy_file(test::project_file("circuits/horn.circuit.xml"), circuit(),
                      fs::copy_options::overwrite_existing);
    }
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;
    ~Folder() { fs::remove_all(path_); }

    std::string circuit() const { return (path_ / "horn.circuit.xml").string(); }
    std::string kept() const { return files::dictionary_path(circuit()); }
    std::size_t file_count() const {
        return static_cast<std::size_t>(std::distance(fs::directory_iterator(path_), {}));
    }

  private:
    fs::path path_;
};

std::string text_of(const std::string& path) {
    std::ifstream file(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

void put(const std::string& path, const std::string& text) {
    std::ofstream(path, std::ios::binary) << text;
}

struct Outcome {
    diagnosis::Dictionary dictionary;
    bool was_made = false;  ///< not taken from beside the circuit
};

Outcome dictionary_in(const Folder& folder, const diagnosis::DictionaryOptions& options = {}) {
    const auto circuit = files::read_circuit_on_disk(folder.circuit());
    REQUIRE(circuit);
    Outcome outcome;
    auto dictionary =
        files::kept_dictionary(*circuit, folder.circuit(), options,
                               [&](const diagnosis::DictionaryProgress&) { outcome.was_made = true; });
    REQUIRE(dictionary);
    outcome.dictionary = std::move(*dictionary);
    return outcome;
}

bool are_same(const diagnosis::Dictionary& one, const diagnosis::Dictionary& other) {
    const auto same_float = [](float a, float b) { return a == b || (a != a && b != b); };
    return one.told == other.told && std::ranges::equal(one.values, other.values, same_float);
}

}  // namespace

TEST_CASE("A dictionary is made once and found beside the circuit the next time") {
    const Folder folder;
    const Outcome first = dictionary_in(folder);
    CHECK(first.was_made);
    CHECK(fs::exists(folder.kept()));
    CHECK(folder.file_count() == 2);
    const Outcome second = dictionary_in(folder);
    CHECK_FALSE(second.was_made);
    CHECK(are_same(first.dictionary, second.dictionary));
}

TEST_CASE("A kept dictionary of other content or options is not taken") {
    const Folder folder;
    dictionary_in(folder);
    CHECK(dictionary_in(folder, {.states = {"ready"}}).was_made);
    CHECK_FALSE(dictionary_in(folder, {.states = {"ready"}}).was_made);
    CHECK(dictionary_in(folder).was_made);
    std::string text = text_of(folder.circuit());
    const std::size_t length = text.find("length-m=\"");
    REQUIRE(length != std::string::npos);
    text.insert(length + 10, "1");
    put(folder.circuit(), text);
    CHECK(dictionary_in(folder).was_made);
    CHECK(folder.file_count() == 2);
}

TEST_CASE("A damaged dictionary is made anew, wherever the damage is") {
    const Folder folder;
    const Outcome sound = dictionary_in(folder);
    const std::string bytes = text_of(folder.kept());
    for (const std::size_t place :
         {std::size_t{3}, std::size_t{40}, std::size_t{60}, bytes.size() / 2, bytes.size() - 1}) {
        std::string damaged = bytes;
        damaged[place] = static_cast<char>(damaged[place] ^ 0x10);
        put(folder.kept(), damaged);
        const Outcome again = dictionary_in(folder);
        INFO(place);
        CHECK(again.was_made);
        CHECK(are_same(sound.dictionary, again.dictionary));
    }
    for (const std::string& cut : {std::string(), bytes.substr(0, 36), bytes.substr(0, bytes.size() - 1)}) {
        put(folder.kept(), cut);
        CHECK(dictionary_in(folder).was_made);
    }
    CHECK_FALSE(dictionary_in(folder).was_made);
}

TEST_CASE("Predictions by a program that computes otherwise are recognised by the sound vehicle") {
    const Folder folder;
    const Outcome sound = dictionary_in(folder);
    const std::string id = text_of(folder.kept()).substr(0, 36);
    diagnosis::Dictionary other = sound.dictionary;
    other.values[other.row_start(2, 0)] += 0.01F;
    put(folder.kept(), id + files::packed(other, files::kMostKeptBytes, 1).value());
    CHECK(dictionary_in(folder).was_made);
    CHECK_FALSE(dictionary_in(folder).was_made);
}

TEST_CASE("A dictionary in another version's layout is made anew") {
    const Folder folder;
    dictionary_in(folder);
    std::string bytes = text_of(folder.kept());
    char& version = bytes[36 + 4];  // after the content's id and the mark
    REQUIRE(version == 2);
    version = 1;
    put(folder.kept(), bytes);
    CHECK(dictionary_in(folder).was_made);
    CHECK(text_of(folder.kept())[36 + 4] == 2);
}

TEST_CASE("A dictionary that cannot be kept is made all the same") {
    const Folder folder;
    fs::create_directory(folder.kept());  // a folder in its place, for root writes anywhere
    CHECK(dictionary_in(folder).was_made);
    CHECK(dictionary_in(folder).was_made);
    CHECK(folder.file_count() == 2);
}

TEST_CASE("A file is written whole, through links, and devices as they are") {
    const Folder folder;
    const std::string path = folder.circuit() + ".txt";
    const std::string link = folder.circuit() + ".link";
    CHECK(files::write_atomically(path, "one"));
    fs::create_symlink(path, link);
    CHECK(files::write_atomically(link, "two"));
    CHECK(fs::is_symlink(link));
    CHECK(text_of(path) == "two");
    CHECK(files::write_atomically("/dev/null", "three"));
    CHECK(fs::is_character_file("/dev/null"));
    CHECK_FALSE(files::write_atomically("/nowhere/at/all.txt", "four"));
}
