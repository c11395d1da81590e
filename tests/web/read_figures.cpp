#include <iostream>
#include <sstream>

#include "viewer/web/read_figures.hpp"

/// Reads putts, five words a line, on greens of the folder named, and prints the figures of their
/// reads, an empty line after each: what tests/web/figures_test.mjs compares the page with.
int main(int, char** argv) {
    for (std::string line; std::getline(std::cin, line);) {
        std::istringstream words(line);
        std::vector<std::string> putt(5);
        for (std::string& word : putt) words >> word;
        std::string figures;
        try {
            figures = dewtrail::figures_of_read(putt, argv[1]);
        } catch (const std::exception& error) {
            figures = error.what();
        }
        std::cout << figures << (figures.ends_with('\n') ? "\n" : "\n\n");
    }
}
