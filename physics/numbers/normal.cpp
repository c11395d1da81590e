#include "physics/numbers/normal.hpp"

#include <algorithm>
#include <array>
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

std::array<std::vector<QuadratureNode>, most_nodes + 1> make_rules() {
    std::array<std::vector<QuadratureNode>, most_nodes + 1> rules;
    for (int n = 1; n <= most_nodes; ++n) rules[n] = make_rule(n);
    return rules;
}

}  // namespace

std::span<const QuadratureNode> gauss_legendre(int n) {
    static const auto rules = make_rules();
    return rules[std::clamp(n, 1, most_nodes)];
}

}  // namespace dewtrail
