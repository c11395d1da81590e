#pragma once

#include <array>
#include <string>
#include <vector>

#include "viewer/comparison/comparison.hpp"
#include "viewer/paper/page.hpp"

namespace dewtrail {

/// ' (2)' where more than two are compared, so that their marks can be told apart in grey.
std::string row_number(const Comparison& comparison, std::size_t putt);

/// The putts of a comparison as rows: line style, name and what sets it apart, aim, pace, time,
/// result. Columns are as wide as their words; a name takes the lines it needs.
class CompareTable {
  public:
    /// `page`: one of the same size, whose letters measure.
    CompareTable(const Comparison& comparison, const Units& units, const Page& page);

    double height() const;
    /// Returns where it ends.
    double write(Page& page, double top) const;

  private:
    static constexpr std::size_t columns = 4;
    using Cells = std::array<std::string, columns>;

    struct Row {
        std::string number;
        std::vector<std::string> name, figures;
        Cells cells;

        double words_height() const;
        double height() const;
    };

    void place_columns(const Comparison& comparison, const Page& page);
    void write_row(Page& page, std::size_t index, double top) const;

    std::vector<Row> rows_;
    double name_from_ = 0, name_width_ = 0;
    std::array<double, columns> at_{};  ///< left ends; of the last one its right end
};

}  // namespace dewtrail
