#pragma once

#include <optional>
#include <vector>

#include "viewer/practice/drill/answer.hpp"
#include "viewer/practice/drill/random_stream.hpp"

namespace dewtrail {

/// Chooses the kind of putt to practise next: Thompson sampling on the strokes lost. For every kind
/// a guess of its cost is drawn from what is known of it, and the dearest guess is dealt: weak
/// kinds come more often, and little-known ones now and then.
///
/// A kind's mean loss is normal, 0.15 +- 0.15 before any putt; one putt scatters by 0.15 (no
/// source: what simulated readers lose). The last 30 putts of a kind count.
class Dealer {
  public:
    /// `kinds`: those that may be dealt, at least one, else std::invalid_argument.
    explicit Dealer(std::vector<Category> kinds);

    void learn(const Category& kind, double lost);
    void learn(const std::vector<Answer>& answers);

    Category choose(RandomStream& random) const;

    /// What is known of a kind.
    struct Known {
        int putts = 0;
        double lost = 0, sd = 0;
    };
    Known known(const Category& kind) const;

    const std::vector<Category>& kinds() const { return kinds_; }

  private:
    std::vector<Category> kinds_;
    std::vector<std::vector<double>> lost_;  ///< by Category::index
};

/// Every kind.
std::vector<Category> all_kinds();

/// The kind that costs most, of those with putts enough to say so.
struct Weakest {
    Category kind;
    int putts = 0;
    double lost = 0;  ///< expected putts each
};
std::optional<Weakest> weakest_of(const std::vector<Answer>& answers);

}  // namespace dewtrail
