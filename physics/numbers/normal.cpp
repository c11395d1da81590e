#include "physics/numbers/normal.hpp"

#include <algorithm>
#include <array>
#include <mutex>
#include <vector>

namespace dewtrail {
namespace {

constexpr int most_nodes = 48;

/// P_n(x) and its derivative by the three-term recurrence.
struct Legendre {
    double value, slope;
    Legendre(int n, double x) {
        double before = 1, here = x;
        for (int k = 2; k <= n; ++k) {
            const double next = ((2 * k - 1) * x * here - (k - 1) * before) / k;
            before = here;
            here = next;
        }
        value = here;
        slope = n * (x * here - before) / (x * x - 1);
    }
};

std::vector<QuadratureNode> make_rule(int n) {
    if (n == 1) return {{0, 2}};
    std::vector<QuadratureNode> rule;
    for (int i = 0; i < n; ++i) {
        double x = -std::cos(M_PI * (i + 0.75) / (n + 0.5));
        for (int step = 0; step < 6; ++step) {
            const Legendre p(n, x);
            x -= p.value / p.slope;
        }
        const double slope = Legendre(n, x).slope;
        rule.push_back({x, 2 / ((1 - x * x) * slope * slope)});
    }
    return rule;
}

}  // namespace

/// Each is made when it is first asked for: all of them take as long as the odds of a short putt.
std::span<const QuadratureNode> gauss_legendre(int n) {
    static std::array<std::vector<QuadratureNode>, most_nodes + 1> rules;
    static std::array<std::once_flag, most_nodes + 1> made;
    const auto nodes = static_cast<std::size_t>(std::clamp(n, 1, most_nodes));
    std::call_once(made[nodes], [&] { rules[nodes] = make_rule(static_cast<int>(nodes)); });
    return rules[nodes];
}

}  // namespace dewtrail
