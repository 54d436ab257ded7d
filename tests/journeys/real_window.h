#pragma once

#include <filesystem>
#include <functional>
#include <map>
#include <string>
#include <vector>

#include <sys/types.h>

namespace halfsplit::test {

/// The program in a window of its own on a screen that nobody sees (Xvfb), with a mouse and a keyboard that
/// are moved as hands would (xdotool).
class RealWindow {
  public:
    /// In an empty working folder, which goes with it. Throws where no screen or no window comes up.
    RealWindow(const std::string& name, const std::vector<std::string>& arguments);
    RealWindow(const RealWindow&) = delete;
    RealWindow& operator=(const RealWindow&) = delete;
    ~RealWindow();

    /// Throws where nothing of this name comes to be on the screen within some seconds.
    void click(const std::string& place, int button = 1);
    void type(const std::string& ascii);
    /// In xdotool's names: "Return", "ctrl+q", "F1".
    void key(const std::string& keys);
    /// Turns the wheel over the trolley until it comes to be seen there. False where it does not.
    bool reaches(const std::string& place, double seconds = 60);

    /// As long as somebody takes to see what came of it.
    void rests() const;
    bool waits_for(const std::string& place, double seconds = 10);
    bool waits_until(const std::function<bool()>& holds, double seconds = 10) const;
    bool is_there(const std::string& place);

    const std::filesystem::path& folder() const { return folder_; }
    /// Leaves by the key for it and waits; a picture of the last frame is among the tests' artefacts then.
    /// The exit status.
    int leave();

  private:
    struct Place {
        int x = 0;
        int y = 0;
    };
    std::map<std::string, Place> places() const;
    void xdotool(const std::string& arguments) const;

    std::filesystem::path folder_;
    std::filesystem::path places_;
    std::string display_;
    pid_t screen_ = -1;
    pid_t program_ = -1;
};

}  // namespace halfsplit::test
