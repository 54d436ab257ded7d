#pragma once

namespace halfsplit::benchmark_of {

/// Prints how quickly whole dictionaries of generated networks are made, against ngspice altering one value
/// and finding the operating point anew for each fault, in the same process and run.
void print_dictionary_comparison();

}  // namespace halfsplit::benchmark_of
