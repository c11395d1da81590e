#include "viewer/putt/outlook_desk.hpp"

#include <exception>
#include <utility>

namespace dewtrail {

OutlookDesk::~OutlookDesk() {
    {
        const std::lock_guard lock(mutex_);
        closing_ = true;
    }
    wake_.notify_one();
    if (thread_.joinable()) thread_.join();
}

void OutlookDesk::ask(OutlookQuestion question) {
    {
        const std::lock_guard lock(mutex_);
        newest_ = question.number;
        waiting_ = std::move(question);
        answer_.reset();
        unanswered_ = true;
    }
    if (!thread_.joinable()) thread_ = std::thread([this] { work(); });
    wake_.notify_one();
}

void OutlookDesk::forget() {
    const std::lock_guard lock(mutex_);
    newest_ = 0;
    waiting_.reset();
    answer_.reset();
    unanswered_ = false;
}

std::optional<Outlook> OutlookDesk::take() {
    const std::lock_guard lock(mutex_);
    return std::exchange(answer_, std::nullopt);
}

bool OutlookDesk::busy() const {
    const std::lock_guard lock(mutex_);
    return unanswered_ || answer_;
}

void OutlookDesk::wait() {
    std::unique_lock lock(mutex_);
    told_.wait(lock, [this] { return !unanswered_; });
}

/// False: the question is no longer the newest.
bool OutlookDesk::tell(const Outlook& outlook) {
    const std::lock_guard lock(mutex_);
    if (closing_ || outlook.number != newest_) return false;
    answer_ = outlook;
    if (outlook.complete) {
        unanswered_ = false;
        told_.notify_all();
    }
    return true;
}

void OutlookDesk::work() {
    OutlookMaker maker;
    while (true) {
        OutlookQuestion question;
        {
            std::unique_lock lock(mutex_);
            wake_.wait(lock, [this] { return closing_ || waiting_; });
            if (closing_) return;
            question = std::move(*waiting_);
            waiting_.reset();
        }
        try {
            maker.answer(question, [this](const Outlook& outlook) { return tell(outlook); });
        } catch (
            const std::exception&) {  // out of memory, say: the window keeps running without odds
            Outlook none;
            none.number = question.number;
            none.complete = true;
            tell(none);
        }
    }
}

}  // namespace dewtrail
