#include "ui/files/packed_dictionary.h"

#include <zstd.h>

#include <algorithm>
#include <atomic>
#include <bit>
#include <boost/crc.hpp>
#include <cstdint>
#include <cstring>
#include <new>
#include <span>
#include <vector>

#include "engine/diagnosis/dictionary/share_out.h"

namespace halfsplit::files {

using diagnosis::Dictionary;
using diagnosis::Told;

namespace {

/// The byte order shows in the first number, the layout's version in the second. After the header: the bytes
/// of each frame, one number each, then the frames: what is told, and the blocks of rows.
constexpr std::uint32_t kMark = 0x48534443;
constexpr std::uint32_t kVersion = 2;

/// A block of rows is packed at a time: large enough to find what repeats, and both stay in the cache.
constexpr std::size_t kBlockBytes = std::size_t{1} << 20U;

/// The fastest of the usual levels: others take twice the time for a tenth less.
constexpr int kLevel = 1;

struct Header {
    std::uint32_t mark = kMark;
    std::uint32_t version = kVersion;
    std::uint64_t states = 0;
    std::uint64_t rows = 0;
    std::uint64_t findings = 0;
    std::uint32_t checksum = 0;  ///< of all that follows
    std::uint32_t unused = 0;    ///< fills the last eight bytes
};

Header header_for(const Dictionary& dictionary, std::string_view content) {
    Header header;
    header.states = dictionary.states.size();
    header.rows = at(dictionary.rows());
    header.findings = dictionary.findings.size();
    boost::crc_32_type crc;
    crc.process_bytes(content.data(), content.size());
    header.checksum = crc.checksum();
    return header;
}

/// Rows of one state that are packed together.
struct Block {
    int state = 0;
    int row = 0;
    int rows = 0;
};

std::vector<Block> blocks_of(const Dictionary& dictionary) {
    const std::size_t row_bytes = std::max<std::size_t>(1, dictionary.findings.size()) * sizeof(float);
    const int rows = static_cast<int>(std::max<std::size_t>(1, kBlockBytes / row_bytes));
    std::vector<Block> blocks;
    for (int state = 0; state < static_cast<int>(dictionary.states.size()); ++state)
        for (int row = 0; row < dictionary.rows(); row += rows)
            blocks.push_back({state, row, std::min(rows, dictionary.rows() - row)});
    return blocks;
}

/// What differs between two rows, bit by bit. Doing it again gives the row back.
void tell_apart(std::span<float> row, std::span<const float> sound) {
    for (std::size_t cell = 0; cell < row.size(); ++cell)
        row[cell] = std::bit_cast<float>(std::bit_cast<std::uint32_t>(row[cell]) ^
                                         std::bit_cast<std::uint32_t>(sound[cell]));
}

/// The rows of a block but the sound vehicle's own, told apart from that.
void tell_apart(const Block& block, std::span<float> rows, std::span<const float> sound) {
    for (int row = block.row == 0 ? 1 : 0; row < block.rows; ++row)
        tell_apart(rows.subspan(at(row) * sound.size(), sound.size()), sound);
}

std::span<const float> sound_row(const Dictionary& dictionary, int state) {
    return std::span(dictionary.values).subspan(dictionary.row_start(state, 0), dictionary.findings.size());
}

std::string compressed(const void* bytes, std::size_t size) {
    std::string frame(ZSTD_compressBound(size), '\0');
    const std::size_t used = ZSTD_compress(frame.data(), frame.size(), bytes, size, kLevel);
    if (ZSTD_isError(used) != 0) throw std::bad_alloc();  // there is room, so it can be nothing else
    frame.resize(used);
    return frame;
}

bool decompress(std::string_view frame, void* bytes, std::size_t size) {
    return ZSTD_decompress(bytes, size, frame.data(), frame.size()) == size;
}

std::string packed_block(const Dictionary& dictionary, const Block& block) {
    const std::span sound = sound_row(dictionary, block.state);
    const auto first =
        dictionary.values.begin() + static_cast<std::ptrdiff_t>(dictionary.row_start(block.state, block.row));
    std::vector<float> rows(first, first + static_cast<std::ptrdiff_t>(at(block.rows) * sound.size()));
    tell_apart(block, rows, sound);
    return compressed(rows.data(), rows.size() * sizeof(float));
}

std::span<float> rows_of(Dictionary& dictionary, const Block& block) {
    return std::span(dictionary.values)
        .subspan(dictionary.row_start(block.state, block.row), at(block.rows) * dictionary.findings.size());
}

bool unpack_told(std::string_view frame, Dictionary& dictionary) {
    std::string told(dictionary.states.size() * at(dictionary.rows()), '\0');
    if (!decompress(frame, told.data(), told.size())) return false;
    const auto is_told = [](char byte) {
        return static_cast<unsigned char>(byte) <= static_cast<unsigned char>(Told::not_at_all);
    };
    if (!std::ranges::all_of(told, is_told)) return false;
    dictionary.told.resize(told.size());
    std::ranges::transform(told, dictionary.told.begin(),
                           [](char byte) { return static_cast<Told>(static_cast<unsigned char>(byte)); });
    return true;
}

std::string joined(const std::vector<std::string>& frames) {
    std::size_t size = frames.size() * sizeof(std::uint64_t);
    for (const std::string& frame : frames) size += frame.size();
    std::string all;
    all.reserve(size);
    for (const std::string& frame : frames) {
        const std::uint64_t frame_size = frame.size();
        all.append(reinterpret_cast<const char*>(&frame_size), sizeof(frame_size));
    }
    for (const std::string& frame : frames) all += frame;
    return all;
}

/// Empty where the content is not so many frames.
std::vector<std::string_view> frames_in(std::string_view content, std::size_t count) {
    if (content.size() / sizeof(std::uint64_t) < count) return {};
    std::vector<std::string_view> frames;
    std::string_view rest = content.substr(count * sizeof(std::uint64_t));
    for (std::size_t frame = 0; frame < count; ++frame) {
        std::uint64_t size = 0;
        std::memcpy(&size, content.data() + frame * sizeof(size), sizeof(size));
        if (size > rest.size()) return {};
        frames.push_back(rest.substr(0, size));
        rest.remove_prefix(size);
    }
    return rest.empty() ? frames : std::vector<std::string_view>{};
}

}  // namespace

std::optional<std::string> packed(const Dictionary& dictionary, std::size_t most, int threads) {
    const std::vector<Block> blocks = blocks_of(dictionary);
    std::vector<std::string> frames(blocks.size() + 1);
    frames.front() = compressed(dictionary.told.data(), dictionary.told.size());
    std::atomic<std::size_t> size =
        sizeof(Header) + frames.front().size() + frames.size() * sizeof(std::uint64_t);
    diagnosis::share_out(static_cast<int>(blocks.size()), threads, [&](int block, int /*thread*/) {
        if (size > most) return;
        std::string& frame = frames[at(block) + 1];
        frame = packed_block(dictionary, blocks[at(block)]);
        size += frame.size();
    });
    if (size > most) return std::nullopt;
    const std::string content = joined(frames);
    const Header header = header_for(dictionary, content);
    return std::string(reinterpret_cast<const char*>(&header), sizeof(header)) + content;
}

bool unpack(std::string_view bytes, Dictionary& dictionary, int threads) {
    if (bytes.size() < sizeof(Header)) return false;
    const std::string_view content = bytes.substr(sizeof(Header));
    const Header expected = header_for(dictionary, content);
    if (std::memcmp(bytes.data(), &expected, sizeof(Header)) != 0) return false;
    const std::vector<Block> blocks = blocks_of(dictionary);
    const auto frames = frames_in(content, blocks.size() + 1);
    if (frames.empty() || !unpack_told(frames.front(), dictionary)) return false;
    dictionary.values.resize(dictionary.row_start(static_cast<int>(dictionary.states.size()), 0));
    std::atomic<bool> is_whole = true;
    const auto unpack_rows = [&](int block, int /*thread*/) {
        const std::span rows = rows_of(dictionary, blocks[at(block)]);
        if (!decompress(frames[at(block) + 1], rows.data(), rows.size_bytes())) is_whole = false;
    };
    diagnosis::share_out(static_cast<int>(blocks.size()), threads, unpack_rows);
    const auto join_rows = [&](int number, int /*thread*/) {
        const Block& block = blocks[at(number)];
        tell_apart(block, rows_of(dictionary, block), sound_row(dictionary, block.state));
    };
    diagnosis::share_out(static_cast<int>(blocks.size()), threads, join_rows);
    return is_whole;
}

}  // namespace halfsplit::files
