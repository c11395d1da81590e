#include "viewer/terminal/busy.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <iostream>

#include "viewer/terminal/folded.hpp"

namespace dewtrail {
namespace {

constexpr std::chrono::milliseconds patience{500};

/// Past the stream, which belongs to the thread that works.
void write_on_terminal(std::string_view text) {
    [[maybe_unused]] const auto shown = ::write(STDERR_FILENO, text.data(), text.size());
}

}  // namespace

Busy::Busy(const Session& session, std::string what) : what_(std::move(what)) {
    if (&session.err() != &std::cerr || !isatty(STDERR_FILENO)) return;
    // Only what stands on one line can be wiped away.
    columns_ =
        static_cast<std::size_t>(std::max(terminal_columns(STDERR_FILENO).value_or(80), 20) - 1);
    if (columns_of(what_) > columns_) what_ = "Working …";
    teller_ = std::thread([this] { wait_and_tell(); });
}

void Busy::wait_and_tell() {
    std::unique_lock lock(mutex_);
    if (wake_.wait_for(lock, patience, [this] { return over_; })) return;
    shown_ = true;
    show();
}

void Busy::show() const {
    if (share_ == 0) return write_on_terminal(what_);
    constexpr std::size_t around = 10, widest = 30;  // " [", "] 100 %" and one to spare
    const std::size_t taken = columns_of(what_) + around;
    const std::size_t width = columns_ > taken ? std::min(columns_ - taken, widest) : 0;
    const auto done = static_cast<std::size_t>(std::lround(share_ * static_cast<double>(width)));
    write_on_terminal(fmt::format("\r{} [{}{}] {:.0f} %", what_, std::string(done, '#'),
                                  std::string(width - done, '.'), 100 * share_));
}

void Busy::at(double share) {
    const std::lock_guard lock(mutex_);
    share_ = share;
    if (shown_) show();
}

Busy::~Busy() {
    if (!teller_.joinable()) return;
    {
        const std::lock_guard lock(mutex_);
        over_ = true;
    }
    wake_.notify_one();
    teller_.join();
    if (shown_) write_on_terminal("\r\033[K");
}

}  // namespace dewtrail
