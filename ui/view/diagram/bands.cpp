#include "ui/view/diagram/bands.h"

#include <algorithm>
#include <map>
#include <numeric>
#include <string>
#include <utility>

#include "engine/base/index.h"
#include "ui/view/diagram/grid.h"

namespace halfsplit::view::diagram {

namespace {

/// Slots of a single part.
constexpr int kLittle = 3;

class BandMaker {
  public:
    BandMaker(const model::Circuit& circuit, const Sheet& whole, const Heights& heights, int slots)
        : circuit_(circuit), whole_(whole), heights_(heights), slots_(slots), root_(whole.pieces.size()) {}

    std::vector<Sheet> make() {
        find_clusters();
        fill_bands();
        for (int lead = 0; lead < static_cast<int>(whole_.leads.size()); ++lead)
            if (own_piece(lead) < 0) band_leads_[at(band_for(lead))].push_back(lead);
        std::vector<Sheet> bands;
        for (std::size_t band = 0; band < band_leads_.size(); ++band)
            bands.push_back(part_of_sheet(band_pieces_[band], band_leads_[band]));
        note_other_bands(bands);
        return bands;
    }

  private:
    bool is_shared(int piece) const { return whole_.pieces[at(piece)].shape == Shape::ground; }

    /// The piece a lead goes with; -1 where it joins only what is in several bands.
    int own_piece(int lead) const {
        for (const End& end : {whole_.leads[at(lead)].a, whole_.leads[at(lead)].b})
            if (!end.is_splice() && !is_shared(end.piece)) return end.piece;
        return -1;
    }

    int root(int piece) {
        while (root_[at(piece)] != piece) piece = root_[at(piece)] = root_[at(root_[at(piece)])];
        return piece;
    }

    void unite(int a, int b) {
        const int first = root(a);
        const int second = root(b);
        root_[at(std::max(first, second))] = std::min(first, second);
    }

    /// What a splice joins stays together as far as a band holds it: splices of few wires first, and of those
    /// the ones deep in the circuit, so that the rails of the fuse box are what is cut.
    void glue_by_splices() {
        std::vector<std::vector<int>> pieces(whole_.splices.size());
        for (const Lead& lead : whole_.leads)
            for (const auto& [end, other] : {std::pair(lead.a, lead.b), std::pair(lead.b, lead.a)})
                if (end.is_splice() && !other.is_splice() && !is_shared(other.piece))
                    pieces[at(end.splice)].push_back(other.piece);
        std::vector<int> order(whole_.splices.size());
        std::iota(order.begin(), order.end(), 0);
        const auto height = [&](int splice) { return heights_.mean(whole_.splices[at(splice)].part); };
        std::stable_sort(order.begin(), order.end(), [&](int a, int b) {
            if (pieces[at(a)].size() != pieces[at(b)].size())
                return pieces[at(a)].size() < pieces[at(b)].size();
            return height(a) > height(b);
        });
        for (const int splice : order) glue(pieces[at(splice)]);
    }

    /// All of them, or as many as a band holds. A little that hangs on much goes along in any case.
    void glue(const std::vector<int>& pieces) {
        for (std::size_t i = 1; i < pieces.size(); ++i) {
            const int first = root(pieces[0]);
            const int second = root(pieces[i]);
            if (first == second) continue;
            const int narrower = std::min(width_of(cluster_sheet(first)), width_of(cluster_sheet(second)));
            const std::vector<int> before = root_;
            unite(first, second);
            if (narrower > kLittle && width_of(cluster_sheet(root(first))) > slots_) root_ = before;
        }
    }

    Sheet cluster_sheet(int cluster) {
        std::vector<int> pieces;
        for (int piece = 0; piece < static_cast<int>(whole_.pieces.size()); ++piece)
            if (!is_shared(piece) && root(piece) == cluster) pieces.push_back(piece);
        std::vector<int> leads;
        for (int lead = 0; lead < static_cast<int>(whole_.leads.size()); ++lead)
            if (const int piece = own_piece(lead); piece >= 0 && root(piece) == cluster)
                leads.push_back(lead);
        return part_of_sheet(pieces, leads);
    }

    void find_clusters() {
        std::iota(root_.begin(), root_.end(), 0);
        for (const Lead& lead : whole_.leads) {
            if (lead.a.is_splice() || lead.b.is_splice()) continue;
            if (!is_shared(lead.a.piece) && !is_shared(lead.b.piece)) unite(lead.a.piece, lead.b.piece);
        }
        glue_by_splices();
        std::map<int, int> number;
        for (int piece = 0; piece < static_cast<int>(whole_.pieces.size()); ++piece) {
            if (is_shared(piece)) continue;
            const auto [found, is_new] = number.try_emplace(root(piece), static_cast<int>(clusters_.size()));
            if (is_new) clusters_.emplace_back();
            clusters_[at(found->second)].push_back(piece);
        }
        cluster_leads_.resize(clusters_.size());
        for (int lead = 0; lead < static_cast<int>(whole_.leads.size()); ++lead)
            if (const int piece = own_piece(lead); piece >= 0)
                cluster_leads_[at(number.at(root(piece)))].push_back(lead);
    }

    void fill_bands() {
        std::vector<int> pieces;
        std::vector<int> leads;
        const auto close_band = [&] {
            band_pieces_.push_back(std::exchange(pieces, {}));
            band_leads_.push_back(std::exchange(leads, {}));
        };
        for (std::size_t cluster = 0; cluster < clusters_.size(); ++cluster) {
            std::vector<int> more = pieces;
            more.insert(more.end(), clusters_[cluster].begin(), clusters_[cluster].end());
            std::vector<int> more_leads = leads;
            more_leads.insert(more_leads.end(), cluster_leads_[cluster].begin(),
                              cluster_leads_[cluster].end());
            if (!pieces.empty() && width_of(part_of_sheet(more, more_leads)) > slots_) {
                close_band();
                more = clusters_[cluster];
                more_leads = cluster_leads_[cluster];
            }
            pieces = std::move(more);
            leads = std::move(more_leads);
        }
        if (!pieces.empty() || band_pieces_.empty()) close_band();
        add_unused_grounds();
    }

    /// Ground points without a wire are shown as well.
    void add_unused_grounds() {
        const auto counts = whole_.lead_counts();
        for (int piece = 0; piece < static_cast<int>(whole_.pieces.size()); ++piece)
            if (is_shared(piece) && whole_.pieces[at(piece)].ports.empty())
                band_pieces_.back().push_back(piece);
    }

    /// The widest row, a lower bound of what the layout will take.
    int width_of(const Sheet& sheet) const {
        const Grid grid = grid_of(sheet, rank(circuit_, sheet, heights_));
        int widest = 0;
        for (const auto& row : grid.rows) {
            int width = 0;
            for (const int item : row) width += grid.items[at(item)].width;
            widest = std::max(widest, width);
        }
        return widest;
    }

    bool band_has(std::size_t band, const End& end) const {
        return std::any_of(band_leads_[band].begin(), band_leads_[band].end(), [&](int lead) {
            for (const End& other : {whole_.leads[at(lead)].a, whole_.leads[at(lead)].b})
                if (other.splice == end.splice && other.piece == end.piece) return true;
            return false;
        });
    }

    /// For a lead between splices and ground points: where most of its ends are anyway.
    int band_for(int lead) const {
        int best = 0;
        int most = -1;
        for (std::size_t band = 0; band < band_leads_.size(); ++band) {
            const int count = (band_has(band, whole_.leads[at(lead)].a) ? 1 : 0) +
                              (band_has(band, whole_.leads[at(lead)].b) ? 1 : 0);
            if (count <= most) continue;
            most = count;
            best = static_cast<int>(band);
        }
        return best;
    }

    Sheet part_of_sheet(const std::vector<int>& pieces, const std::vector<int>& leads) const {
        Sheet sheet;
        std::map<int, int> piece_index;
        std::map<int, int> splice_index;
        const auto add_piece = [&](int piece) {
            const auto [found, is_new] =
                piece_index.try_emplace(piece, static_cast<int>(sheet.pieces.size()));
            if (is_new) sheet.pieces.push_back(whole_.pieces[at(piece)]);
            return found->second;
        };
        const auto moved_end = [&](End end) {
            if (!end.is_splice()) return End{add_piece(end.piece), end.port, -1};
            const auto [found, is_new] =
                splice_index.try_emplace(end.splice, static_cast<int>(sheet.splices.size()));
            if (is_new) sheet.splices.push_back(whole_.splices[at(end.splice)]);
            return End{-1, -1, found->second};
        };
        for (const int piece : pieces) add_piece(piece);
        for (const int lead : leads) {
            const Lead& old = whole_.leads[at(lead)];
            sheet.leads.push_back({old.wire, old.moved, moved_end(old.a), moved_end(old.b)});
        }
        return sheet;
    }

    /// In the band a splice is fed in it says where else it goes; in the others, where it comes from.
    void note_other_bands(std::vector<Sheet>& bands) const {
        std::map<int, std::vector<int>> bands_of_splice;
        for (int band = 0; band < static_cast<int>(bands.size()); ++band)
            for (const SpliceRail& splice : bands[at(band)].splices)
                bands_of_splice[splice.part].push_back(band);
        for (auto& [part, in] : bands_of_splice) {
            const auto fed = std::find_if(in.begin(), in.end(),
                                          [&, id = part](int band) { return is_fed(bands[at(band)], id); });
            const int home = fed == in.end() ? in.front() : *fed;
            for (const int band : in)
                for (SpliceRail& splice : bands[at(band)].splices)
                    if (splice.part == part)
                        splice.see = band == home ? other_bands(in, home) : std::to_string(home + 1);
        }
    }

    /// Whether something above the splice joins it here.
    bool is_fed(const Sheet& sheet, int part) const {
        return std::any_of(sheet.leads.begin(), sheet.leads.end(), [&](const Lead& lead) {
            for (const auto& [end, other] : {std::pair(lead.a, lead.b), std::pair(lead.b, lead.a)}) {
                if (!end.is_splice() || sheet.splices[at(end.splice)].part != part) continue;
                if (!other.is_splice() && sheet.port(other).side == Side::bottom) return true;
                if (other.is_splice() &&
                    Heights::is_above(heights_.mean(sheet.splices[at(other.splice)].part),
                                      heights_.mean(part)))
                    return true;
            }
            return false;
        });
    }

    /// "2", "2, 4", or "2 to 21" where there are more.
    static std::string other_bands(const std::vector<int>& in, int home) {
        std::vector<int> others;
        for (const int band : in)
            if (band != home) others.push_back(band + 1);
        if (others.empty()) return "";
        if (others.size() > 3) return std::to_string(others.front()) + " to " + std::to_string(others.back());
        std::string text;
        for (const int band : others) text += (text.empty() ? "" : ", ") + std::to_string(band);
        return text;
    }

    const model::Circuit& circuit_;
    const Sheet& whole_;
    const Heights& heights_;
    int slots_;
    std::vector<int> root_;
    std::vector<std::vector<int>> clusters_;
    std::vector<std::vector<int>> cluster_leads_;
    std::vector<std::vector<int>> band_pieces_;
    std::vector<std::vector<int>> band_leads_;
};

}  // namespace

std::vector<Sheet> bands_of(const model::Circuit& circuit, const Sheet& whole, const Heights& heights,
                            int slots) {
    return BandMaker(circuit, whole, heights, slots).make();
}

}  // namespace halfsplit::view::diagram
