#include "ui/view/diagram/row_places.h"

#include <algorithm>

#include "engine/base/index.h"

namespace halfsplit::view::diagram {

namespace {

/// Items that stand shoulder to shoulder.
struct Block {
    int last_item = 0;
    int first_vote = 0;
    int end_vote = 0;
    int x = 0;  ///< where the first item of the row would have to begin for it
};

bool is_left(const Vote& a, const Vote& b) {
    return a.x < b.x;
}

int weighted_median(const std::vector<Vote>& votes, const Block& block) {
    int total = 0;
    for (int i = block.first_vote; i < block.end_vote; ++i) total += votes[at(i)].weight;
    int passed = 0;
    for (int i = block.first_vote; i < block.end_vote; ++i) {
        passed += votes[at(i)].weight;
        if (2 * passed >= total) return votes[at(i)].x;
    }
    return votes[at(block.end_vote - 1)].x;
}

}  // namespace

void find_row_places(RowWishes& wishes, std::vector<int>& places) {
    const auto vote_at = [&](int index) { return wishes.votes.begin() + index; };
    std::vector<Block> blocks;
    blocks.reserve(wishes.widths.size());
    int offset = 0;
    int first = 0;
    for (int item = 0; item < static_cast<int>(wishes.widths.size()); ++item) {
        Block block{item, first, wishes.ends[at(item)], 0};
        first = block.end_vote;
        for (int i = block.first_vote; i < block.end_vote; ++i) wishes.votes[at(i)].x -= offset;
        std::sort(vote_at(block.first_vote), vote_at(block.end_vote), is_left);
        block.x = weighted_median(wishes.votes, block);
        while (!blocks.empty() && blocks.back().x > block.x) {
            const int middle = block.first_vote;
            block.first_vote = blocks.back().first_vote;
            blocks.pop_back();
            std::inplace_merge(vote_at(block.first_vote), vote_at(middle), vote_at(block.end_vote), is_left);
            block.x = weighted_median(wishes.votes, block);
        }
        blocks.push_back(block);
        offset += wishes.widths[at(item)];
    }
    places.clear();
    offset = 0;
    for (const Block& block : blocks)
        while (static_cast<int>(places.size()) <= block.last_item) {
            places.push_back(block.x + offset);
            offset += wishes.widths[places.size() - 1];
        }
}

}  // namespace halfsplit::view::diagram
