#pragma once

#include "viewer/putt/putt_request.hpp"

namespace dewtrail {

/// The ground of a request, and where ball and hole lie on it: a slope in one of its ways, or a
/// green file. Adds what is to be told of it to `notes`. Throws InputError.
void set_ground(Setup& setup, const PuttRequest& request, const PuttDefaults& defaults,
                std::vector<std::string>& notes);

}  // namespace dewtrail
