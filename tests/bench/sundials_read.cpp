#include "tests/bench/sundials_read.hpp"

#include <cvodes/cvodes.h>
#include <nvector/nvector_serial.h>
#include <sunnonlinsol/sunnonlinsol_fixedpoint.h>

#include <Eigen/LU>
#include <cmath>
#include <memory>
#include <stdexcept>
#include <unsupported/Eigen/AutoDiff>

#include "physics/roll/green_speed.hpp"
#include "support/as_eigen.hpp"

namespace dewtrail::bench {
namespace {

constexpr int states = 5;  // x, y, vx, vy, arc
constexpr int parameters = 2;
constexpr double stopped_m_s = 1e-3;

using Dual = Eigen::AutoDiffScalar<Eigen::Vector4d>;
using Rate = Eigen::Matrix<double, states, 1>;
using Columns = Eigen::Matrix<double, states, parameters>;

struct Motion {
    const Putt& putt;
    long* evaluations;
};

/// Rates of x, y, vx, vy, arc for any scalar.
template <class T>
std::array<T, states> rates(const T& hx, const T& hy, const T& hxx, const T& hxy, const T& hyy,
                            const T& vx, const T& vy, double resistance) {
    using std::sqrt;
    const T vz = hx * vx + hy * vy;
    const T bend = hxx * vx * vx + 2.0 * hxy * vx * vy + hyy * vy * vy;
    const T W2 = 1.0 + hx * hx + hy * hy;
    const T v = sqrt(vx * vx + vy * vy + vz * vz);
    const T push = (rolling_share * gravity_m_s2 + bend) / W2;
    const T drag = rolling_share * resistance * (gravity_m_s2 + bend) / sqrt(W2) / v;
    return {vx, vy, T(-hx * push - drag * vx), T(-hy * push - drag * vy), v};
}

int motion(realtype, N_Vector y, N_Vector dy, void* data) {
    const Motion& m = **static_cast<Motion* const*>(data);
    ++*m.evaluations;
    const double* s = N_VGetArrayPointer(y);
    const SurfaceJet j = m.putt.surface->at(s[0], s[1]);
    const auto r = rates<double>(j.hx, j.hy, j.hxx, j.hxy, j.hyy, s[2], s[3], m.putt.resistance);
    std::copy(r.begin(), r.end(), N_VGetArrayPointer(dy));
    return 0;
}

int sensitivities(int, realtype, N_Vector y, N_Vector, N_Vector* yS, N_Vector* dyS, void* data,
                  N_Vector, N_Vector) {
    const Motion& m = **static_cast<Motion* const*>(data);
    const double* s = N_VGetArrayPointer(y);
    const SurfaceJet j = m.putt.surface->at(s[0], s[1]);
    const auto of = [](double value, double by_x, double by_y, double by_vx = 0, double by_vy = 0) {
        return Dual(value, Eigen::Vector4d(by_x, by_y, by_vx, by_vy));
    };
    const auto r =
        rates<Dual>(of(j.hx, j.hxx, j.hxy), of(j.hy, j.hxy, j.hyy), of(j.hxx, j.hxxx, j.hxxy),
                    of(j.hxy, j.hxxy, j.hxyy), of(j.hyy, j.hxyy, j.hyyy), of(s[2], 0, 0, 1, 0),
                    of(s[3], 0, 0, 0, 1), m.putt.resistance);
    for (int p = 0; p < parameters; ++p) {
        const Eigen::Map<const Eigen::Vector4d> d(N_VGetArrayPointer(yS[p]));
        for (int row = 0; row < states; ++row)
            N_VGetArrayPointer(dyS[p])[row] = r[row].derivatives().dot(d);
    }
    return 0;
}

int roots(realtype, N_Vector y, realtype* g, void* data) {
    const Motion& m = **static_cast<Motion* const*>(data);
    const double* s = N_VGetArrayPointer(y);
    g[0] = (s[0] - m.putt.hole.x()) * s[2] + (s[1] - m.putt.hole.y()) * s[3];
    g[1] = std::hypot(s[2], s[3]) - stopped_m_s;
    return 0;
}

struct Context {
    SUNContext get = nullptr;
    Context() { SUNContext_Create(nullptr, &get); }
    ~Context() { SUNContext_Free(&get); }
};

/// The solver's memory, made once: a careful user keeps it from read to read.
class Solver {
  public:
    explicit Solver(double tolerance)
        : y_(N_VNew_Serial(states, context_.get)),
          columns_(N_VCloneVectorArray(parameters, y_)),
          memory_(CVodeCreate(CV_ADAMS, context_.get)),
          nonlinear_(SUNNonlinSol_FixedPoint(y_, 0, context_.get)),
          nonlinear_columns_(SUNNonlinSol_FixedPointSens(parameters + 1, y_, 0, context_.get)) {
        N_VConst(1, y_);
        for (int p = 0; p < parameters; ++p) N_VConst(0, columns_[p]);
        CVodeInit(memory_, motion, 0, y_);
        CVodeSStolerances(memory_, tolerance, tolerance);
        CVodeSetNonlinearSolver(memory_, nonlinear_);
        // Before the sensitivities, which keep the pointer they find.
        CVodeSetUserData(memory_, &now_);
        CVodeSensInit(memory_, parameters, CV_SIMULTANEOUS, sensitivities, columns_);
        realtype each[parameters] = {tolerance * 100, tolerance * 100};
        CVodeSensSStolerances(memory_, tolerance * 100, each);
        CVodeSetNonlinearSolverSensSim(memory_, nonlinear_columns_);
        CVodeRootInit(memory_, 2, roots);
        CVodeSetMaxNumSteps(memory_, 20000);
    }
    ~Solver() {
        CVodeFree(&memory_);
        SUNNonlinSolFree(nonlinear_);
        SUNNonlinSolFree(nonlinear_columns_);
        N_VDestroyVectorArray(columns_, parameters);
        N_VDestroy(y_);
    }
    Solver(const Solver&) = delete;
    Solver& operator=(const Solver&) = delete;

    struct Moment {
        Rate state;
        Columns by;  ///< angle, speed; at fixed time
    };
    struct Rolled {
        std::optional<Moment> pass;
        Moment last;
    };

    Rolled roll(Motion& m, const Stroke& stroke) {
        set_start(m.putt, stroke);
        now_ = &m;
        CVodeReInit(memory_, 0, y_);
        CVodeSensReInit(memory_, CV_SIMULTANEOUS, columns_);
        Rolled rolled;
        while (true) {
            realtype time = 0;
            const int flag = CVode(memory_, 1e3, y_, &time, CV_NORMAL);
            if (flag != CV_ROOT_RETURN) throw std::runtime_error("CVODES gave up");
            realtype at = 0;
            CVodeGetSens(memory_, &at, columns_);
            int found[2] = {0, 0};
            CVodeGetRootInfo(memory_, found);
            if (found[0] > 0 && !rolled.pass) rolled.pass = moment();
            if (found[1] != 0) break;
        }
        rolled.last = moment();
        return rolled;
    }

  private:
    void set_start(const Putt& putt, const Stroke& stroke) {
        const double bearing = bearing_of(putt.line()) + stroke.angle_rad;
        const Vec2 e = along_bearing(bearing), turned(e.y(), -e.x());
        const Vec2 gradient = putt.surface->at(putt.ball.x(), putt.ball.y()).gradient();
        const double p = e.dot(gradient), shorter = 1 / std::sqrt(1 + p * p);
        const double d_shorter = -p * turned.dot(gradient) * shorter * shorter * shorter;
        const Vec2 v = stroke.speed_m_s * shorter * e;
        const Vec2 by_angle = stroke.speed_m_s * (shorter * turned + d_shorter * e);
        Eigen::Map<Rate>(N_VGetArrayPointer(y_)) << as_eigen(putt.ball), as_eigen(v), 0;
        Eigen::Map<Rate>(N_VGetArrayPointer(columns_[0])) << 0, 0, as_eigen(by_angle), 0;
        Eigen::Map<Rate>(N_VGetArrayPointer(columns_[1])) << 0, 0, as_eigen(shorter * e), 0;
    }

    Moment moment() const {
        Moment m;
        m.state = Eigen::Map<const Rate>(N_VGetArrayPointer(y_));
        for (int p = 0; p < parameters; ++p)
            m.by.col(p) = Eigen::Map<const Rate>(N_VGetArrayPointer(columns_[p]));
        return m;
    }

    Context context_;
    N_Vector y_;
    N_Vector* columns_;
    void* memory_;
    SUNNonlinearSolver nonlinear_, nonlinear_columns_;
    Motion* now_ = nullptr;
};

struct Residual {
    Eigen::Vector2d value;
    Eigen::Matrix2d slope;
};

/// The last millimetre a second, by the deceleration there.
void finish_roll(const Putt& putt, Solver::Moment& last) {
    const Vec2 v = as_vec2(last.state.segment<2>(2));
    const Vec2 gradient = putt.surface->at(last.state[0], last.state[1]).gradient();
    const double grip =
        rolling_share * gravity_m_s2 * (putt.resistance + gradient.dot(v.normalized()));
    last.state[4] += v.squaredNorm() / (2 * grip);
}

Residual residual(Solver& solver, Motion& m, const Stroke& stroke) {
    Solver::Rolled r = solver.roll(m, stroke);
    const Putt& putt = m.putt;
    // At fixed time the ball at the end is slower or faster than the stopping speed: slide to it.
    const auto arc_row = [&](const Solver::Moment& at) -> Eigen::RowVector2d {
        const Vec2 v = as_vec2(at.state.segment<2>(2)), e = v.normalized();
        const Vec2 gradient = putt.surface->at(at.state[0], at.state[1]).gradient();
        const double slows = rolling_share * gravity_m_s2 * (putt.resistance + gradient.dot(e));
        return at.by.row(4) + v.norm() / slows * (as_eigen(e).transpose() * at.by.middleRows<2>(2));
    };
    const Eigen::RowVector2d end = arc_row(r.last);
    finish_roll(putt, r.last);
    if (!r.pass) {
        const Vec2 e = putt.line().normalized(), right(e.y(), -e.x());
        const Vec2 off = as_vec2(r.last.state.head<2>()) - putt.hole;
        Residual s;
        s.value << right.dot(off), e.dot(off) - putt.finish.value;
        s.slope << as_eigen(right).transpose() * r.last.by.topRows<2>(),
            as_eigen(e).transpose() * r.last.by.topRows<2>();
        return s;
    }
    const Solver::Moment& pass = *r.pass;
    const Vec2 v = as_vec2(pass.state.segment<2>(2)), e = v.normalized(), right(e.y(), -e.x());
    const Eigen::RowVector2d slide = -(as_eigen(e).transpose() * pass.by.topRows<2>()) / v.norm();
    Residual s;
    s.value << right.dot(as_vec2(pass.state.head<2>()) - putt.hole),
        r.last.state[4] - pass.state[4] - putt.finish.value;
    s.slope << as_eigen(right).transpose() * pass.by.topRows<2>(),
        end - pass.by.row(4) - v.norm() * slide;
    return s;
}

}  // namespace

PlainRead sundials_read(const Putt& putt, double tolerance) {
    thread_local Solver solver(tolerance);
    PlainRead result;
    Motion m{putt, &result.evaluations};
    const double level = putt.distance_m() + putt.finish.value;
    Stroke stroke{0, speed_of_level_roll_m_s(level, putt.resistance)};
    for (int i = 0; i < 40; ++i) {
        const Residual here = residual(solver, m, stroke);
        if (here.value.norm() < 1e-6) {
            result.stroke = stroke;
            break;
        }
        Eigen::Vector2d step = -here.slope.fullPivLu().solve(here.value);
        step *= std::min(1.0, 0.3 / step.cwiseAbs().maxCoeff());
        stroke = {stroke.angle_rad + step[0], stroke.speed_m_s + step[1]};
    }
    return result;
}

}  // namespace dewtrail::bench
