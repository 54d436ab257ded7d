#pragma once

#include <optional>
#include <string>

namespace halfsplit::files {

/// The program by which the desktop lets one choose a file: GNOME's zenity or KDE's kdialog, the first that
/// is found along PATH. nullopt: there is none, and paths have to be typed.
std::optional<std::string> desktop_dialog();

/// Lets somebody choose a circuit or a job there is, and waits until that is done. nullopt: nothing was
/// chosen.
std::optional<std::string> choose_file(const std::string& dialog);

}  // namespace halfsplit::files
