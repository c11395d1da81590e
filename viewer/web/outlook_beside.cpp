#include "viewer/web/outlook_beside.hpp"

#include <stdexcept>
#include <utility>

namespace dewtrail {

void OutlookDeskBeside::ask(OutlookQuestion question) {
    asked_.reset();
    answer_.reset();
    here_->forget();
    ++number_;
    if (sent(question))
        asked_ = std::move(question);
    else
        here_->ask(std::move(question));
}

/// Those who ask number their own questions; here the numbers are everybody's.
bool OutlookDeskBeside::sent(const OutlookQuestion& question) const try {
    OutlookQuestion numbered = question;
    numbered.number = number_;
    return send_(numbers_of(numbered));
} catch (const std::invalid_argument&) {
    return false;  // ground that cannot be sent
}

void OutlookDeskBeside::forget() {
    if (asked_) send_({});
    asked_.reset();
    answer_.reset();
    here_->forget();
}

std::optional<Outlook> OutlookDeskBeside::take() {
    return answer_ ? std::exchange(answer_, std::nullopt) : here_->take();
}

void OutlookDeskBeside::wait() {
    if (asked_) answer_.reset();  // a part of what comes now
    lost();
    here_->wait();
}

bool OutlookDeskBeside::hear(const Numbers& answer) {
    Outlook outlook = outlook_in(answer);
    if (!asked_ || outlook.number != number_) return asked_.has_value();
    outlook.number = asked_->number;
    if (outlook.complete) asked_.reset();
    answer_ = std::move(outlook);
    return asked_.has_value();
}

void OutlookDeskBeside::lost() {
    if (asked_) here_->ask(*std::exchange(asked_, std::nullopt));
}

void OutlookClerk::ask(const Numbers& question) {
    if (question.empty())
        desk_->forget();
    else
        desk_->ask(reader_.question_in(question));
}

std::optional<Numbers> OutlookClerk::work() {
    const auto outlook = desk_->take();
    if (!outlook) return std::nullopt;
    return numbers_of(*outlook);
}

}  // namespace dewtrail
