#include "ui/view/diagram/row_places.h"

#include <algorithm>
#include <utility>

#include "engine/base/index.h"

namespace halfsplit::view::diagram {

namespace {

/// Items that stand shoulder to shoulder; votes are for where the first of the row would begin.
struct Block {
    int items = 1;
    std::vector<Vote> votes;  ///< sorted by x
    int x = 0;
};

int weighted_median(const std::vector<Vote>& votes) {
    int total = 0;
    for (const Vote& vote : votes) total += vote.weight;
    int passed = 0;
    for (const Vote& vote : votes) {
        passed += vote.weight;
        if (2 * passed >= total) return vote.x;
    }
    return votes.back().x;
}

void absorb(Block& block, const Block& next) {
    std::vector<Vote> merged;
    std::merge(block.votes.begin(), block.votes.end(), next.votes.begin(), next.votes.end(),
               std::back_inserter(merged), [](const Vote& a, const Vote& b) { return a.x < b.x; });
    block.votes = std::move(merged);
    block.items += next.items;
    block.x = weighted_median(block.votes);
}

}  // namespace

std::vector<int> row_places(const std::vector<Wish>& wishes) {
    std::vector<Block> blocks;
    std::vector<int> offsets;
    int offset = 0;
    for (const Wish& wish : wishes) {
        Block block{1, wish.votes, 0};
        for (Vote& vote : block.votes) vote.x -= offset;
        std::sort(block.votes.begin(), block.votes.end(), [](const Vote& a, const Vote& b) { return a.x < b.x; });
        block.x = weighted_median(block.votes);
        blocks.push_back(std::move(block));
        while (blocks.size() > 1 && blocks[blocks.size() - 2].x > blocks.back().x) {
            const Block last = std::move(blocks.back());
            blocks.pop_back();
            absorb(blocks.back(), last);
        }
        offsets.push_back(offset);
        offset += wish.width;
    }
    std::vector<int> places;
    for (const Block& block : blocks)
        for (int i = 0; i < block.items; ++i) places.push_back(block.x + offsets[places.size()]);
    return places;
}

}  // namespace halfsplit::view::diagram
