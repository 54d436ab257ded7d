#include "engine/instruments/instrument.h"

#include <algorithm>
#include <array>

#include "engine/base/nearest.h"
#include "engine/instruments/kinds.h"

namespace halfsplit::instruments {

tl::expected<simulation::Settled, Diagnostics> Bench::with(
    std::vector<network::Attachment> attachments) const {
    network::Situation situation = settled.situation;
    for (network::Attachment& attachment : attachments)
        situation.attachments.push_back(std::move(attachment));
    return simulation::settle_again(circuit, settled, situation);
}

tl::expected<simulation::Settled, Diagnostics> Bench::with(network::Insertion insertion) const {
    network::Situation situation = settled.situation;
    situation.insertions.push_back(std::move(insertion));
    return simulation::settle_again(circuit, settled, situation);
}

std::span<const Instrument> instruments() {
    static const std::array all{voltmeter(),    low_impedance_voltmeter(),
                                test_lamp(),    led_test_lamp(),
                                ohmmeter(),     ammeter(),
                                milliammeter(), clamp(),
                                jumper(),       fuse_millivolts()};
    return all;
}

const Instrument* find_instrument(std::string_view id) {
    const auto all = instruments();
    const auto found = std::ranges::find(all, id, &Instrument::id);
    return found == all.end() ? nullptr : &*found;
}

Measured measure(const Bench& bench, std::string_view instrument_id, const Leads& leads) {
    const Instrument* instrument = find_instrument(instrument_id);
    if (instrument == nullptr) {
        std::vector<std::string> known;
        for (const Instrument& each : instruments()) known.emplace_back(each.id);
        return tl::unexpected(one_problem("there is no instrument '" + std::string(instrument_id) + "'" +
                                          did_you_mean(instrument_id, known) + "; expected " +
                                          listed(known)));
    }
    Measured reading = instrument->measure(bench, leads);
    if (!reading) return reading;
    reading->instrument = instrument->id;
    reading->at = leads.at;
    reading->against = instrument->connection == Connection::two_points ? leads.against : "";
    return reading;
}

}  // namespace halfsplit::instruments
