#include "physics/survey/smoothness_search.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>
#include <limits>
#include <map>

namespace dewtrail {
namespace {

/// From the foot of a sharp step to a dish, a factor of four apart: what lies between is told from
/// its neighbours by hundreds of readings only. Before anything is read each is believed twice as
/// much as the next shorter one: most ground bends gently. The middle one comes first.
constexpr std::array<double, 3> reaches_m{2, 0.5, 8};
/// Of log lambda. Between neighbours a fit changes far less than its uncertainty.
constexpr double rung = 1.5;
constexpr int rungs_at_first = 4;  // the likelihood can have two humps, but no narrow ones
constexpr double least_weight = 0.01;

struct Step {
    double surprise = std::numeric_limits<double>::infinity();
    double variance_scale = 1;
    Vector coefficients;
};

/// One reach, as far as its ladder of lambdas has been climbed.
class Ladder {
  public:
    Ladder(Smoother& smoother, double reach_m)
        : smoother_(smoother),
          reach_m_(reach_m),
          planes_(smoother.log_room_of_planes(reach_m)),
          lowest_(static_cast<int>(std::ceil(std::log(smoother.least_lambda()) / rung))),
          highest_(static_cast<int>(std::floor(std::log(smoother.most_lambda()) / rung))) {}

    void scan() {
        for (int k = highest_; k >= lowest_; k -= rungs_at_first) step(k);
        climb_from(best());
    }
    /// To where the surprise is least near rung k.
    void climb_from(int k) {
        for (int top = k, last = k + 1; top != last;) {
            last = top;
            for (const int next : {last - 1, last, last + 1}) {
                step(next);
                if (surprise(next) < surprise(top)) top = next;
            }
        }
    }

    const std::map<int, Step>& steps() const { return steps_; }
    Smoothness at(int k) const { return {reach_m_, std::exp(rung * k)}; }
    double surprise(int k) const {
        const auto known = steps_.find(k);
        return known == steps_.end() ? std::numeric_limits<double>::infinity()
                                     : known->second.surprise;
    }
    int best() const {
        return std::min_element(steps_.begin(), steps_.end(),
                                [](const auto& a, const auto& b) {
                                    return a.second.surprise < b.second.surprise;
                                })
            ->first;
    }
    /// Rungs with no less surprising neighbour among those that are known.
    std::vector<int> humps() const {
        std::vector<int> all;
        for (auto at = steps_.begin(); at != steps_.end(); ++at) {
            const auto next = std::next(at);
            const bool lowers =
                at != steps_.begin() && std::prev(at)->second.surprise < at->second.surprise;
            const bool rises = next != steps_.end() && next->second.surprise < at->second.surprise;
            if (!lowers && !rises) all.push_back(at->first);
        }
        return all;
    }

    /// Goes on from every step that is no more surprising than this.
    void explore(double most_surprise) {
        for (bool grown = true; grown;) {
            grown = false;
            std::vector<int> allowed;
            for (const auto& [k, step_k] : steps_)
                if (step_k.surprise <= most_surprise) allowed.push_back(k);
            for (const int k : allowed)
                for (const int next : {k - 1, k + 1}) grown |= step(next);
        }
    }

  private:
    /// Whether it is a new one.
    bool step(int k) {
        if (k < lowest_ || k > highest_ || steps_.count(k) > 0) return false;
        Step& found = steps_[k];
        found.surprise = smoother_.surprise(at(k)) - planes_ - std::log(reach_m_);
        if (std::isfinite(found.surprise)) {
            found.variance_scale = smoother_.variance_scale();
            found.coefficients = smoother_.coefficients();
        }
        return true;
    }

    Smoother& smoother_;
    double reach_m_, planes_;
    int lowest_, highest_;
    std::map<int, Step> steps_;
};

}  // namespace

SmoothnessFound find_smoothness(Smoother& smoother) {
    std::vector<Ladder> ladders;
    double least = std::numeric_limits<double>::infinity();
    for (const double reach_m : reaches_m) {
        ladders.emplace_back(smoother, reach_m);
        if (ladders.size() == 1)
            ladders[0].scan();
        else
            for (const int k : ladders[0].humps()) ladders.back().climb_from(k);
        const Ladder& ladder = ladders.back();
        least = std::min(least, ladder.surprise(ladder.best()));
    }
    SmoothnessFound found;
    if (!std::isfinite(least)) return found;
    const double most = least - 2 * std::log(least_weight);
    double all = 0, scales = 0;
    for (Ladder& ladder : ladders) {
        ladder.explore(most);
        for (const auto& [k, step] : ladder.steps()) {
            if (!(step.surprise <= most)) continue;
            found.allowed.push_back(ladder.at(k));
            const double weight = std::exp(-0.5 * (step.surprise - least));
            found.allowed.back().weight = weight;
            if (all == 0) found.coefficients = Vector::Zero(step.coefficients.size());
            all += weight;
            scales += weight * step.variance_scale;
            found.coefficients += weight * step.coefficients;
        }
    }
    found.coefficients /= all;
    found.variance_scale = scales / all;
    for (Smoothness& one : found.allowed) one.weight /= all;
    std::stable_sort(found.allowed.begin(), found.allowed.end(),
                     [](const Smoothness& a, const Smoothness& b) { return a.weight > b.weight; });
    return found;
}

}  // namespace dewtrail
