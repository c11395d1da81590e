#pragma once

#include <memory>
#include <string>

#include "viewer/paper/sheet.hpp"
#include "viewer/picture/palette.hpp"
#include "viewer/putt/solved.hpp"
#include "viewer/putt/trail.hpp"

namespace dewtrail {

/// A roll on the plan at any moment of it, as the window would draw it: 1280 by 800 pixels.
class RollPicture {
  public:
    /// A stroke of the putt, its path kept. Both are told below the green, and what became of it in
    /// the words of `verdict`. std::runtime_error if cairo fails, here and below.
    RollPicture(const PlacedPutt& putt, const Read& stroke, const std::string& verdict,
                const Units& units, Theme theme);
    ~RollPicture();
    RollPicture(const RollPicture&) = delete;
    RollPicture& operator=(const RollPicture&) = delete;

    double end_s() const { return trail_.end_s(); }
    /// All but the ground, `time_s` after the ball has left.
    Picture picture(double time_s) const;
    /// The PNG file's bytes, `time_s` after the ball has left.
    std::string png(double time_s) const { return frame(time_s).png(); }
    /// Its pixels as Bitmap::bgr0 gives them, `width` by `height`.
    std::string bgr0(double time_s) const { return frame(time_s).bgr0(); }
    static constexpr int width = 1280, height = 800;

  private:
    struct Painted;
    Bitmap frame(double time_s) const;

    Solved solved_;
    std::string title_;
    Trail trail_;
    std::unique_ptr<Painted> painted_;
};

}  // namespace dewtrail
