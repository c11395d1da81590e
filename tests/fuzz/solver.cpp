/// The solver on any plane or small survey, any ball, speed and finish: a read that the check
/// accepts, or a reason; never NaN, an exception or a hang (the fuzzer's own time limit).

#include <cmath>
#include <cstring>
#include <memory>

#include "fuzz/fuzzing.hpp"
#include "physics/read/read.hpp"
#include "physics/roll/green_speed.hpp"
#include "physics/survey/survey_fit.hpp"

using namespace dewtrail;

namespace {

/// Numbers from the bytes, nought when they are used up. To be asked for one after the other, not
/// as arguments of a call, which every compiler works out in an order of its own.
class Bytes {
  public:
    Bytes(const std::uint8_t* data, std::size_t size) : data_(data), size_(size) {}
    double between(double low, double high) {
        std::uint16_t n = 0;
        if (size_ >= 2) {
            std::memcpy(&n, data_, 2);
            data_ += 2, size_ -= 2;
        }
        return low + (high - low) * n / 65535.0;
    }
    bool more() const { return size_ >= 2; }

  private:
    const std::uint8_t* data_;
    std::size_t size_;
};

std::shared_ptr<const Surface> surface_of(Bytes& bytes, bool plane) {
    const double slope = bytes.between(0, 0.2), bearing = bytes.between(0, 2 * M_PI);
    if (plane) return std::make_shared<Plane>(Vec2(slope * along_bearing(bearing)));
    Survey survey;
    while (bytes.more() && survey.levels.size() < 12) {
        const Vec2 at{bytes.between(-8, 8), bytes.between(-8, 8)};
        const double falls = bytes.between(0, 0.08), toward = bytes.between(0, 2 * M_PI);
        survey.levels.push_back(level_reading(at, falls, toward));
    }
    SurveyFitOptions options;
    options.spacing_m = 1.5;
    return fit_survey(survey, options).surface;
}

void check(const Putt& putt, const Read& line) {
    for (const double value : {line.stroke.angle_rad, line.stroke.speed_m_s, line.arrival_time_s,
                               line.arrival_speed_m_s, line.level_putt_m})
        fuzz::require(std::isfinite(value), "a read is finite");
    fuzz::require(line.stroke.speed_m_s > 0 && line.stroke.speed_m_s < 60, "a stroke is a stroke");
    fuzz::require(line.check.miss_m <= 1e-4, "a read passes the hole's centre");
    if (putt.finish.kind == Finish::Kind::past)
        fuzz::require(!line.check.finish_error_m || *line.check.finish_error_m <= 1e-3,
                      "a read finishes as asked");
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    if (size < 16) return 0;
    Bytes bytes(data + 1, size - 1);
    Putt putt;
    putt.resistance = resistance_of_stimp(bytes.between(3, 18) * 0.3048);
    const double distance = 0.15 * std::pow(40 / 0.15, bytes.between(0, 1));
    putt.ball = distance * along_bearing(bytes.between(0, 2 * M_PI));
    putt.finish = data[0] & 2 ? Finish::past(bytes.between(0, 3))
                              : Finish::hole_speed(bytes.between(0.01, 3));
    putt.surface = surface_of(bytes, data[0] & 1);
    if (!putt.surface) return 0;  // too few readings, or on one line
    ReadOptions options;
    options.look_for_others = data[0] & 4;
    options.room = options.costs = data[0] & 8;
    const ReadResult result = read(putt, options);
    fuzz::require(result.lines.empty() == result.none.has_value(), "a read or a reason");
    for (const Read& line : result.lines) check(putt, line);
    return 0;
}
