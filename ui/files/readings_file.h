#pragma once

#include <string>
#include <string_view>

namespace halfsplit::files {

/// What a circuit file is called without its folder and endings: "horn" of "circuits/horn.circuit.xml".
std::string circuit_name(const std::string& circuit_path);

/// Where readings taken at a vehicle of this circuit are kept: "horn.readings.csv", in the working directory.
std::string readings_path(const std::string& circuit_path);

/// A name in the working directory that no file has yet: "horn.sheet.csv", else "horn-2.sheet.csv", …
std::string unused_path(const std::string& name, std::string_view ending);

/// Whether there is a file of that name.
bool is_there(const std::string& path);

/// Gives a file another name, so that nothing is written over it. False where that cannot be done.
bool put_aside(const std::string& path, const std::string& as);

/// With all folders before it, so that somebody finds it.
std::string whole_path(const std::string& path);

}  // namespace halfsplit::files
