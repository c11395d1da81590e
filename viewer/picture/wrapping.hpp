#pragma once

#include "viewer/picture/picture.hpp"

namespace dewtrail {

/// `wrapped` and `wrapped_evenly` into lines that are there, whose memory is kept: for what is set
/// several times in a frame.
void wrap_into(std::vector<std::string>& lines, std::string_view words, Face face, double size,
               double most, const TextWidth& width);
void wrap_evenly_into(std::vector<std::string>& lines, std::string_view words, Face face,
                      double size, double most, const TextWidth& width);

}  // namespace dewtrail
