#pragma once

#include <memory>

namespace dewtrail {

/// Throws OutsideError unless DISPLAY names a display that answers: SFML itself would abort. Keep
/// what it returns for as long as the display is needed.
std::shared_ptr<void> require_display();

}  // namespace dewtrail
