#pragma once

#include <filesystem>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "viewer/practice/drill/dealt_putt.hpp"
#include "viewer/putt/setup.hpp"

namespace dewtrail {

/// The program as one file for a browser, and what it opens on. Greens of one's own go along with
/// the tables they were fitted to; the shipped ones are in the page already.
class PocketPage {
  public:
    /// `page`: the one to begin with; empty: the one that was built. InputError where there is
    /// none, or it is no page of this program.
    explicit PocketPage(const std::string& page);
    /// Whether there is one to begin with.
    static bool is_built();

    void open_on(const Setup& putt);
    /// `text`: these putts as the file of a set. InputError for a green that is not there.
    void open_on(const std::vector<DealtPutt>& putts, const std::string& text);
    /// A demonstration; InputError for one that is not known.
    void open_on(const std::string& demonstration);

    std::string text() const;

  private:
    void add_green(const std::filesystem::path& file);

    std::string page_;
    std::size_t place_ = 0;  ///< in the page, of what it opens on
    /// What it opens on: files of a folder of its own (viewer/web/page.cpp reads them).
    std::map<std::string, std::string> files_;
};

}  // namespace dewtrail
