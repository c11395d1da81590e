#include "viewer/web/outlook_numbers.hpp"

#include <stdexcept>
#include <type_traits>

#include "physics/surface/fitted_surface.hpp"
#include "physics/surface/line_profile.hpp"

namespace dewtrail {
namespace {

/// What a surface is made of: a profile's readings, a spline's coefficients; with neither a plane.
struct Ground {
    Vec2 gradient;
    Vec2 ball, hole;  ///< of the profile
    std::vector<LineReading> readings{};
    SplineGrid grid{};
    std::vector<double> coefficients{};
    std::vector<Vec2> corners{};  ///< of its edge; none: it has none
};

class Writer {
  public:
    void number(double& x) { row.push_back(x); }
    std::size_t size_of(std::size_t size) {
        row.push_back(static_cast<double>(size));
        return size;
    }

    Numbers row{};
};

class Reader {
  public:
    explicit Reader(const Numbers& row) : row_(row) {}

    void number(double& x) {
        if (left() == 0) throw std::invalid_argument("numbers: the row is too short");
        x = row_[at_++];
    }
    /// Everything that there are many of is a number or more.
    std::size_t size_of(std::size_t) {
        double size = 0;
        number(size);
        if (!(size >= 0 && size <= static_cast<double>(left())))
            throw std::invalid_argument("numbers: the row is too short");
        return static_cast<std::size_t>(size);
    }

  private:
    std::size_t left() const { return row_.size() - at_; }

    const Numbers& row_;
    std::size_t at_ = 0;
};

/// The one account of what goes, whichever way it goes.
template <class Way>
class Row : public Way {
  public:
    using Way::Way;

    template <class... T>
    void pass(T&... values) {
        (one(values), ...);
    }

  private:
    void one(double& x) { this->number(x); }
    /// Whole numbers here are far below 2^53.
    template <class T>
    std::enable_if_t<std::is_integral_v<T> || std::is_enum_v<T>> one(T& x) {
        double number = static_cast<double>(x);
        this->number(number);
        x = static_cast<T>(number);
    }
    template <class T>
    void one(std::vector<T>& many) {
        many.resize(this->size_of(many.size()));
        for (T& t : many) one(t);
    }
    template <class T>
    void one(std::optional<T>& maybe) {
        const bool there = this->size_of(maybe ? 1 : 0) > 0;
        if (there && !maybe) maybe.emplace();
        if (maybe) one(*maybe);
    }

    void one(Vec2& v) { pass(v.x(), v.y()); }
    void one(Eigen::Matrix2d& m) { pass(m(0, 0), m(0, 1), m(1, 0), m(1, 1)); }
    void one(LineReading& r) { pass(r.along_m, r.up, r.right_up); }
    void one(SplineGrid& g) { pass(g.origin, g.spacing_m, g.cells_x, g.cells_y); }
    void one(Ground& g) {
        pass(g.gradient, g.ball, g.hole, g.readings, g.grid, g.coefficients, g.corners);
    }
    void one(Finish& f) { pass(f.kind, f.value); }
    void one(Conditions& c) {
        pass(c.wind_m_s, c.grain, c.slow_share, c.launch_spin, c.sliding_friction);
    }
    /// Without its ground.
    void one(Putt& p) { pass(p.resistance, p.ball, p.hole, p.finish, p.conditions); }
    void one(Stroke& s) { pass(s.angle_rad, s.speed_m_s); }
    void one(Room& r) { pass(r.angle_lo_rad, r.angle_hi_rad, r.pace_lo, r.pace_hi); }
    void one(Read& r) { pass(r.stroke, r.level_roll_m, r.room); }
    void one(Spread& s) { pass(s.line_deg, s.pace, s.pace_floor_m, s.slope_read, s.fall_read_deg); }
    void one(OutlookQuestion& q) { pass(q.number, q.putt, q.read, q.plain, q.spread); }

    void one(StrokeSpread& s) { pass(s.angle_rad, s.level_roll_m, s.covariance); }
    void one(StrokeOff& s) { pass(s.angle_rad, s.pace); }
    void one(Odds& o) {
        pass(o.holed, o.inside_3ft, o.short_of_hole, o.usual_leave_m, o.putts, o.three_putt);
    }
    void one(PlayedChoice& c) { pass(c.past_m, c.aim_shift_rad, c.stroke, c.level_roll_m, c.odds); }
    void one(BestChoice& b) { pass(b.plain, b.by_past, b.fewest_putts, b.most_holed); }
    void one(Outlook& o) { pass(o.number, o.spread, o.outline, o.odds, o.best, o.complete); }
};

template <class... T>
Numbers row_of(T... values) {
    Row<Writer> row;
    row.pass(values...);
    return std::move(row.row);
}

template <class... T>
void read_row(const Numbers& numbers, T&... values) {
    Row<Reader> row(numbers);
    row.pass(values...);
}

Ground ground_of(const Putt& putt) {
    Ground ground;
    const Surface* surface = putt.surface.get();
    if (const auto* plane = dynamic_cast<const Plane*>(surface)) {
        ground.gradient = plane->gradient();
    } else if (const auto* profile = dynamic_cast<const LineProfile*>(surface)) {
        ground.ball = profile->ball();
        ground.hole = profile->hole();
        ground.readings = profile->readings();
    } else if (const auto* fitted = dynamic_cast<const FittedSurface*>(surface)) {
        ground.grid = fitted->grid();
        ground.coefficients = fitted->coefficients();
    } else {
        throw std::invalid_argument("surface: of a kind that is not sent");
    }
    if (putt.outline) ground.corners = putt.outline->corners();
    return ground;
}

std::shared_ptr<const Surface> surface_of(const Ground& ground) {
    if (!ground.readings.empty())
        return std::make_shared<LineProfile>(ground.ball, ground.hole, ground.readings);
    if (!ground.coefficients.empty())
        return std::make_shared<FittedSurface>(ground.grid, ground.coefficients);
    return std::make_shared<Plane>(ground.gradient);
}

}  // namespace

Numbers numbers_of(const OutlookQuestion& question) {
    return row_of(row_of(ground_of(question.putt)), question);
}

Numbers numbers_of(const Outlook& outlook) {
    return row_of(outlook);
}

Outlook outlook_in(const Numbers& row) {
    Outlook outlook;
    read_row(row, outlook);
    return outlook;
}

OutlookQuestion QuestionReader::question_in(const Numbers& row) {
    Numbers ground_row;
    OutlookQuestion question;
    read_row(row, ground_row, question);
    if (!surface_ || ground_row != ground_) {
        Ground ground;
        read_row(ground_row, ground);
        surface_ = surface_of(ground);
        outline_ = ground.corners.empty() ? nullptr : std::make_shared<Outline>(ground.corners);
        ground_ = std::move(ground_row);
    }
    question.putt.surface = surface_;
    question.putt.outline = outline_;
    return question;
}

}  // namespace dewtrail
