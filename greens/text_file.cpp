#include "greens/text_file.hpp"

#include <fmt/format.h>

#include <fstream>

#include "greens/input_error.hpp"

namespace dewtrail {
namespace fs = std::filesystem;

void refuse_file(const fs::path& path, const std::string& problem, const std::string& remedy) {
    throw InputError(path.string(), 0, 0, problem, remedy);
}

void check_is_file(const fs::path& path) {
    std::error_code unknown;
    const fs::file_status status = fs::status(path, unknown);
    // Nobody can tell whether it exists: a folder on the way may not be entered.
    if (!fs::status_known(status))
        refuse_file(path, "cannot be read", "check its folder's permissions");
    if (!fs::exists(status)) refuse_file(path, "no such file", "check the name and the folder");
    if (!fs::is_regular_file(status))
        refuse_file(path, "not a file", "name a file, not a folder or a device");
}

std::string read_text_file(const fs::path& path, std::uintmax_t most_bytes) {
    check_is_file(path);
    std::error_code unknown;
    const std::uintmax_t bytes = fs::file_size(path, unknown);
    if (unknown) refuse_file(path, "cannot be read", "check the file's permissions");
    if (bytes > most_bytes)
        refuse_file(path, fmt::format("{} bytes, the limit is {}", bytes, most_bytes),
                    "make the file smaller");

    std::ifstream in(path, std::ios::binary);
    std::string text(static_cast<std::size_t>(bytes), '\0');
    in.read(text.data(), static_cast<std::streamsize>(bytes));
    if (!in || in.gcount() != static_cast<std::streamsize>(bytes))
        refuse_file(path, "cannot be read", "check the file's permissions");
    if (text.starts_with("\xEF\xBB\xBF")) text.erase(0, 3);
    return text;
}

}  // namespace dewtrail
