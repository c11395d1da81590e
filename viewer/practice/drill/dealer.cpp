#include "viewer/practice/drill/dealer.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "viewer/practice/habits/bias.hpp"

namespace dewtrail {
namespace {

constexpr double prior_lost = 0.15, prior_sd = 0.15, putt_sd = 0.15;
constexpr std::size_t remembered = 30;

}  // namespace

Dealer::Dealer(std::vector<Category> kinds) : kinds_(std::move(kinds)), lost_(category_count) {
    if (kinds_.empty()) throw std::invalid_argument("a dealer needs at least one kind of putt");
}

void Dealer::learn(const Category& kind, double lost) {
    std::vector<double>& all = lost_[kind.index()];
    all.push_back(lost);
    if (all.size() > remembered) all.erase(all.begin());
}

void Dealer::learn(const std::vector<Answer>& answers) {
    for (const Answer& answer : answers)
        if (answer.lost) learn(answer.category, *answer.lost);
}

Dealer::Known Dealer::known(const Category& kind) const {
    double precision = 1 / (prior_sd * prior_sd), pull = prior_lost * precision;
    const std::vector<double>& all = lost_[kind.index()];
    for (const double lost : all) {
        precision += 1 / (putt_sd * putt_sd);
        pull += lost / (putt_sd * putt_sd);
    }
    return {static_cast<int>(all.size()), pull / precision, 1 / std::sqrt(precision)};
}

Category Dealer::choose(RandomStream& random) const {
    Category dearest = kinds_.front();
    double most = -HUGE_VAL;
    for (const Category& kind : kinds_) {
        const Known what = known(kind);
        const double guess = what.lost + what.sd * random.normal();
        if (guess > most) {
            most = guess;
            dearest = kind;
        }
    }
    return dearest;
}

std::vector<Category> all_kinds() {
    std::vector<Category> kinds;
    for (int i = 0; i < category_count; ++i) kinds.push_back(category_at(i));
    return kinds;
}

std::optional<Weakest> weakest_of(const std::vector<Answer>& answers) {
    Dealer dealer(all_kinds());
    dealer.learn(answers);
    std::optional<Weakest> weakest;
    for (const Category& kind : dealer.kinds()) {
        const auto known = dealer.known(kind);
        if (known.putts >= least_putts && (!weakest || known.lost > weakest->lost))
            weakest = Weakest{kind, known.putts, known.lost};
    }
    return weakest;
}

}  // namespace dewtrail
