#include "viewer/text/printable.hpp"

#include <algorithm>

namespace dewtrail {

std::string printable(std::string text) {
    const auto is_control = [](char c) {
        return static_cast<unsigned char>(c) < 0x20 || c == 0x7f;
    };
    std::replace_if(text.begin(), text.end(), is_control, ' ');
    return text;
}

}  // namespace dewtrail
