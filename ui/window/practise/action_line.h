#pragma once

#include <optional>
#include <string>
#include <vector>

#include "ui/window/frame/frame.h"

namespace halfsplit::window {

/// A line to type any action in, with what a word that is begun may become listed under it.
class ActionLine {
  public:
    /// The first word of a line becomes one of `verbs`, the others one of `names`.
    void offer(std::vector<std::string> verbs, std::vector<std::string> names);
    void take_keyboard() { wants_keyboard_ = true; }
    bool wants_keyboard() const { return wants_keyboard_; }
    const std::string& text() const { return text_; }

    /// What was typed, when Enter is pressed.
    std::optional<std::string> draw(const Frame& frame);

    /// What the last word of `text` may become, at most `most`.
    std::vector<std::string> completions(const std::string& text, std::size_t most) const;
    /// `text` with its last word completed.
    static std::string completed(const std::string& text, const std::string& word);

  private:
    std::vector<std::string> verbs_;
    std::vector<std::string> names_;
    std::string text_;
    bool wants_keyboard_ = false;
};

}  // namespace halfsplit::window
