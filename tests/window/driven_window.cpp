#include "window/driven_window.hpp"

#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <cstdlib>
#include <fstream>
#include <thread>

namespace dewtrail::driven {
namespace {

using namespace std::chrono_literals;
constexpr auto longest_wait = 8s;
constexpr auto between_actions =
    120ms;  // a press and a release in one frame would be one event too few

}  // namespace

DrivenWindow::DrivenWindow(const std::string& arguments) {
    const std::string command = "cd " + folder() + " && PATH=" + folder() +
                                ":$PATH HOME=" + folder() + " XDG_DATA_HOME=" + folder() +
                                " XDG_CONFIG_HOME=" + folder() + " XDG_STATE_HOME=" + folder() +
                                " exec " DEWTRAIL_PROGRAM " window --still --trace " + trace_ +
                                " " + arguments;
    process_ = fork();
    if (process_ == 0) {
        execl("/bin/sh", "sh", "-c", command.c_str(), nullptr);
        _exit(127);
    }
    await_line([](const Json&) { return true; }, "anything");
    tool("mousemove 5 5");
}

DrivenWindow::~DrivenWindow() {
    end_it();
    if (process_ > 0) waitpid(process_, nullptr, 0);
}

int DrivenWindow::exit_code() {
    for (int i = 0; i < 50; ++i) {
        int status = 0;
        if (waitpid(process_, &status, WNOHANG) == process_) {
            process_ = -1;
            return WIFEXITED(status) ? WEXITSTATUS(status) : -2;
        }
        std::this_thread::sleep_for(100ms);
    }
    return -1;
}

void DrivenWindow::end_it() {
    if (running()) kill(process_, SIGTERM);
}

void DrivenWindow::kill_it() {
    kill(process_, SIGKILL);
    waitpid(process_, nullptr, 0);
    process_ = -1;
}

bool DrivenWindow::running() const {
    return process_ > 0 && kill(process_, 0) == 0;
}

void DrivenWindow::tool(const std::string& words) const {
    if (std::system(("xdotool " + words).c_str()) != 0)
        throw std::runtime_error("xdotool " + words);
    std::this_thread::sleep_for(between_actions);
}

void DrivenWindow::click(double x, double y, int times) const {
    tool("mousemove " + std::to_string(static_cast<int>(x)) + " " +
         std::to_string(static_cast<int>(y)));
    tool("click --repeat " + std::to_string(times) + " --delay 90 1");
}

void DrivenWindow::drag(const Json& from, double dx, double dy) const {
    const double x = from[0], y = from[1];
    const auto move = [&](double share) {
        tool("mousemove " + std::to_string(static_cast<int>(x + share * dx)) + " " +
             std::to_string(static_cast<int>(y + share * dy)));
    };
    move(0);
    tool("mousedown 1");
    for (const double share : {0.3, 0.6, 1.0}) move(share);
    tool("mouseup 1");
}

std::vector<Json> DrivenWindow::lines() const {
    std::vector<Json> all;
    std::ifstream file(trace_);
    for (std::string line; std::getline(file, line);) {
        Json json = Json::parse(line, nullptr, false);
        if (!json.is_discarded()) all.push_back(std::move(json));
    }
    return all;
}

Json DrivenWindow::await(const std::string& action) {
    return await_line([&](const Json& line) { return line["action"] == action; }, action);
}

Json DrivenWindow::await_line(const std::function<bool(const Json&)>& fits,
                              const std::string& called) {
    const auto until = std::chrono::steady_clock::now() + longest_wait;
    while (std::chrono::steady_clock::now() < until) {
        const auto all = lines();
        for (std::size_t i = all.size(); i-- > seen_;)
            if (fits(all[i])) {
                seen_ = i + 1;
                return all[i];
            }
        std::this_thread::sleep_for(30ms);
    }
    throw std::runtime_error("the window's trace did not say '" + called + "'");
}

Json DrivenWindow::last() const {
    const auto all = lines();
    return all.empty() ? Json() : all.back();
}

std::size_t DrivenWindow::count(const std::string& action) const {
    std::size_t n = 0;
    for (const Json& line : lines()) n += line["action"] == action;
    return n;
}

}  // namespace dewtrail::driven
