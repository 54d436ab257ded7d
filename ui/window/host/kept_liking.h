#pragma once

#include <optional>

#include "ui/window/desk/desk.h"

namespace halfsplit::window {

/// How this user liked the window last; nullopt where nothing is known of it.
std::optional<Liking> kept_liking();
/// In $XDG_CONFIG_HOME/halfsplit/window.json (XDG Base Directory Specification; without it, in ~/.config).
/// Where it cannot be written nothing is lost but that.
void keep_liking(const Liking& liking);

}  // namespace halfsplit::window
