#pragma once

#include <string>

#include "viewer/putt/setup.hpp"

/// What files of pages are called when nobody names them: after what stands on them.
namespace dewtrail {

/// '12ft-2pct-at-3.00'; on a green its name and those of the places.
std::string putt_name(const Setup& setup, const Units& units);

/// What a name of a file may hold on any machine.
std::string as_file_name(std::string words);

}  // namespace dewtrail
