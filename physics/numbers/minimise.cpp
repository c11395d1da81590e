#include "physics/numbers/minimise.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

namespace dewtrail {
namespace {

struct Corner {
    Eigen::VectorXd at;
    double value;
};

void sort(std::vector<Corner>& simplex) {
    std::sort(simplex.begin(), simplex.end(),
              [](const Corner& a, const Corner& b) { return a.value < b.value; });
}

}  // namespace

Minimum minimise(const std::function<double(const Eigen::VectorXd&)>& f,
                 const Eigen::VectorXd& start, const Eigen::VectorXd& steps, double close,
                 int most_evaluations) {
    const Eigen::Index n = start.size();
    Minimum result;
    const auto corner = [&](const Eigen::VectorXd& at) {
        ++result.evaluations;
        return Corner{at, f(at)};
    };
    std::vector<Corner> simplex{corner(start)};
    for (Eigen::Index i = 0; i < n; ++i)
        simplex.push_back(corner(start + steps[i] * Eigen::VectorXd::Unit(n, i)));
    for (sort(simplex); simplex.back().value - simplex.front().value > close &&
                        result.evaluations < most_evaluations;
         sort(simplex)) {
        Eigen::VectorXd middle = Eigen::VectorXd::Zero(n);
        for (Eigen::Index i = 0; i < n; ++i) middle += simplex[i].at / double(n);
        const Eigen::VectorXd away = middle - simplex.back().at;
        Corner next = corner(middle + away);
        if (next.value < simplex.front().value) {
            const Corner farther = corner(middle + 2 * away);
            if (farther.value < next.value) next = farther;
        } else if (!(next.value < simplex[n - 1].value)) {
            const bool outside = next.value < simplex.back().value;
            next = corner(middle + (outside ? 0.5 : -0.5) * away);
        }
        if (next.value < simplex.back().value) {
            simplex.back() = next;
            continue;
        }
        for (Eigen::Index i = 1; i <= n; ++i)
            simplex[i] = corner(0.5 * (simplex[i].at + simplex.front().at));
    }
    result.at = simplex.front().at;
    result.value = simplex.front().value;
    return result;
}

Eigen::MatrixXd second_derivatives(const std::function<double(const Eigen::VectorXd&)>& f,
                                   const Eigen::VectorXd& at, const Eigen::VectorXd& steps) {
    const Eigen::Index n = at.size();
    bool finite = true;
    const auto value = [&](const Eigen::VectorXd& x) {
        const double y = f(x);
        finite &= std::isfinite(y);
        return finite ? y : 0;
    };
    Eigen::MatrixXd H(n, n);
    for (Eigen::Index i = 0; i < n; ++i)
        for (Eigen::Index j = 0; j <= i; ++j) {
            const Eigen::VectorXd a = steps[i] * Eigen::VectorXd::Unit(n, i);
            const Eigen::VectorXd b = steps[j] * Eigen::VectorXd::Unit(n, j);
            const double second =
                i == j ? (value(at + a) - 2 * value(at) + value(at - a)) / (steps[i] * steps[i])
                       : (value(at + a + b) - value(at + a - b) - value(at - a + b) +
                          value(at - a - b)) /
                             (4 * steps[i] * steps[j]);
            H(i, j) = H(j, i) = second;
        }
    return finite ? H : Eigen::MatrixXd::Zero(n, n);
}

}  // namespace dewtrail
