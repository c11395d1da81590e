#pragma once

#include <array>
#include <cmath>

#include "physics/surface/surface.hpp"
#include "support/as_eigen.hpp"
#include "support/random.hpp"

namespace dewtrail::oracle {

/// Kinds of invented greens. A tier's half-width w is that of tanh(u / w); terraces are three such
/// steps side by side.
enum class Lie { dish, mound, swale, saddle, sharp_tier, steep_tier, gentle_tier, terraces };
inline constexpr std::array<const char*, 8> lie_names{
    "dish",          "mound",         "swale",       "saddle",
    "tier, 1-1.8 m", "tier, 1.8-3 m", "tier, 3-5 m", "terraces"};

/// An invented green of 20 m by 12 m: a plane with a bend of some kind, known exactly.
class KnownGreen final : public Surface {
  public:
    KnownGreen(Lie lie, Random& random) : lie_(lie) {
        tilt_ = random.between(0.005, 0.025) * along_bearing(random.between(0, 2 * M_PI));
        place_ = {random.between(4, 16), random.between(2, 10)};
        across_ = along_bearing(random.between(0, 2 * M_PI));
        const double sign = random.chance(0.5) ? 1 : -1;
        switch (lie) {
            case Lie::sharp_tier:
                draw(random, sign, 0.1, 0.2, 1, 1.8);
                break;
            case Lie::steep_tier:
                draw(random, sign, 0.1, 0.2, 1.8, 3);
                break;
            case Lie::gentle_tier:
                draw(random, sign, 0.1, 0.2, 3, 5);
                break;
            case Lie::terraces:
                draw(random, sign, 0.08, 0.15, 1, 2);
                apart_m_ = random.between(6, 8);
                break;
            default:
                draw(random, sign, 0.05, 0.25, 4, 8);
        }
    }

    SurfaceJet at(double x, double y) const override {
        const Vec2 p = Vec2(x, y) - place_;
        const double across = p.dot(across_), s2 = size_m_ * size_m_;
        SurfaceJet jet;
        jet.h = tilt_.dot(Vec2(x, y));
        jet.hx = tilt_.x();
        jet.hy = tilt_.y();
        switch (lie_) {
            case Lie::dish:
                add(jet, p.squaredNorm() / (4 * s2), p / (2 * s2),
                    Eigen::Matrix2d::Identity() / (2 * s2));
                break;
            case Lie::mound: {
                const double e = std::exp(-p.squaredNorm() / s2);
                add(jet, e, -2 * e / s2 * p,
                    e * (4 / (s2 * s2) * as_eigen(p) * as_eigen(p).transpose() -
                         2 / s2 * Eigen::Matrix2d::Identity()));
                break;
            }
            case Lie::swale: {  // runs through
                const double u = 2 * across / size_m_;
                along(jet, std::cos(u) / 2, -std::sin(u), -2 * std::cos(u));
                break;
            }
            case Lie::saddle:
                add(jet, p.x() * p.y() / (2 * s2), Vec2(p.y(), p.x()) / (2 * s2),
                    Eigen::Matrix2d{{0, 1}, {1, 0}} / (2 * s2));
                break;
            case Lie::terraces:
                step(jet, across - apart_m_), step(jet, across + apart_m_);
                [[fallthrough]];
            default:
                step(jet, across);
        }
        return jet;
    }

  private:
    void draw(Random& random, double sign, double low_m, double high_m, double narrow_m,
              double wide_m) {
        size_m_ = random.between(narrow_m, wide_m);
        height_m_ = sign * random.between(low_m, high_m);
    }
    void step(SurfaceJet& jet, double across) const {
        const double t = std::tanh(across / size_m_);
        along(jet, t / 2, (1 - t * t) / 2, -t * (1 - t * t));
    }
    /// A function of the place across alone, in sizes.
    void along(SurfaceJet& jet, double f, double f1, double f2) const {
        add(jet, f, across_ * (f1 / size_m_),
            as_eigen(across_) * as_eigen(across_).transpose() * (f2 / (size_m_ * size_m_)));
    }
    void add(SurfaceJet& jet, double f, const Vec2& g, const Eigen::Matrix2d& c) const {
        jet.h += height_m_ * f;
        jet.hx += height_m_ * g.x();
        jet.hy += height_m_ * g.y();
        jet.hxx += height_m_ * c(0, 0);
        jet.hxy += height_m_ * c(0, 1);
        jet.hyy += height_m_ * c(1, 1);
    }

    Lie lie_;
    Vec2 tilt_, place_, across_;
    double size_m_ = 1, height_m_ = 0, apart_m_ = 0;
};

}  // namespace dewtrail::oracle
