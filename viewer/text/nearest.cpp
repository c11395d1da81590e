#include "viewer/text/nearest.hpp"

#include <algorithm>
#include <numeric>

namespace dewtrail {
namespace {

/// Damerau-Levenshtein with adjacent swaps ('optimal string alignment').
std::size_t distance(const std::string& a, const std::string& b) {
    std::vector<std::size_t> before(b.size() + 1), last(b.size() + 1), row(b.size() + 1);
    std::iota(last.begin(), last.end(), 0);
    for (std::size_t i = 1; i <= a.size(); ++i) {
        row[0] = i;
        for (std::size_t j = 1; j <= b.size(); ++j) {
            row[j] = std::min({last[j] + 1, row[j - 1] + 1, last[j - 1] + (a[i - 1] != b[j - 1])});
            if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
                row[j] = std::min(row[j], before[j - 2] + 1);
        }
        before.swap(last);
        last.swap(row);
    }
    return last[b.size()];
}

}  // namespace

std::optional<std::string> nearest(const std::string& typed,
                                   const std::vector<std::string>& words) {
    std::optional<std::string> best;
    std::size_t least = std::max<std::size_t>(1, typed.size() / 3) + 1;
    for (const std::string& word : words)
        if (const std::size_t d = distance(typed, word); d < least) best = word, least = d;
    return best;
}

}  // namespace dewtrail
