#pragma once

#include <functional>
#include <string>
#include <vector>

#include "ui/window/frame/frame.h"

namespace halfsplit::window {

// Widgets that leave their place in the landmarks, under the name that is handed over ("button:done").

/// A drawer of the trolley: what `fill` draws is seen while it is open.
void drawer(const Frame& frame, const std::string& name, const std::string& title, bool open_at_first,
            const std::function<void()>& fill);

bool button(const Frame& frame, const std::string& name, const std::string& label);
/// As wide as there is room.
bool wide_button(const Frame& frame, const std::string& name, const std::string& label);
/// One of several that exclude each other.
bool choice(const Frame& frame, const std::string& name, const std::string& label, bool is_chosen);
bool tick(const Frame& frame, const std::string& name, const std::string& label, bool& is_ticked);
/// One of a list, behind a field that shows it. True where another was chosen.
bool pick_from(const Frame& frame, const std::string& name, const std::vector<std::string>& labels,
               int& chosen);
/// A line to type in; true where Enter was pressed.
bool type_in(const Frame& frame, const std::string& name, const std::string& prompt, std::string& text);
/// From least to most; true while it is moved.
bool slide(const Frame& frame, const std::string& name, double& value, double least, double most,
           const std::string& unit);

/// Wrapped at the drawer's edge; line breaks of a file's own count as spaces.
void words(const std::string& text);
void soft_words(const Frame& frame, const std::string& text);
void caution(const Frame& frame, const std::string& text);

/// Line breaks and what else counts as spaces became single spaces; none at the beginning.
std::string on_one_line(const std::string& text);

/// The widget that was drawn last.
void name_last(const Frame& frame, const std::string& name);

}  // namespace halfsplit::window
