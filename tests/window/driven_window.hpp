#pragma once

#include <sys/types.h>
#include <functional>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "tests/support/shell.hpp"
#include "tests/support/temporary_folder.hpp"

/// The program in a process of its own, driven by xdotool, seen through its trace.
namespace dewtrail::driven {

using Json = nlohmann::json;

class DrivenWindow {
  public:
    /// Starts `dewtrail window` with these arguments and waits until it has drawn itself.
    explicit DrivenWindow(const std::string& arguments);
    ~DrivenWindow();
    DrivenWindow(const DrivenWindow&) = delete;
    DrivenWindow& operator=(const DrivenWindow&) = delete;

    void tool(const std::string& words) const;  ///< xdotool, then a short pause
    void key(const std::string& keys) const { tool("key --delay 60 " + keys); }
    void click(double x, double y, int times = 1) const;
    void drag(const Json& from, double dx, double dy) const;

    /// The newest line of the trace with this action that came after the last one awaited; throws
    /// if none comes within eight seconds.
    Json await(const std::string& action);
    Json last() const;  ///< the newest line of all
    std::size_t count(const std::string& action) const;
    bool running() const;
    int exit_code();  ///< waits five seconds for its end; −1 if it goes on
    void kill_it();   ///< at once, as a power cut would
    void end_it();    ///< as the end of a session does
    /// Where the window keeps all it keeps, starts, and looks for other programs first.
    std::string folder() const { return folder_.path().string(); }
    /// Where the window keeps its player.
    std::string player_file() const { return folder() + "/dewtrail/player.toml"; }

  private:
    std::vector<Json> lines() const;
    Json await_line(const std::function<bool(const Json&)>& fits, const std::string& called);

    TemporaryFolder folder_;
    std::string trace_ = folder() + "/trace";
    pid_t process_ = -1;
    std::size_t seen_ = 0;
};

}  // namespace dewtrail::driven
