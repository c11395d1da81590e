#pragma once

#include <memory>
#include <string>
#include <vector>

namespace dewtrail {

/// One page, offered to browsers by HTTP: GET / has it, everything else is refused. Nothing that a
/// browser sends is kept or looked at beyond that.
class PageServer {
  public:
    /// `address`: in numbers, and the only one that is listened at; 0.0.0.0 and :: are all of this
    /// machine's. `port` 0: a free one. InputError for what is no address; OutsideError where it
    /// cannot be had.
    PageServer(std::string page, const std::string& address, int port);
    ~PageServer();
    PageServer(const PageServer&) = delete;
    PageServer& operator=(const PageServer&) = delete;

    /// For a browser: http://192.168.1.20:8417/
    std::string url() const;
    bool only_here() const;  ///< no other machine can reach it
    /// Until it is told to end, by Ctrl C or SIGTERM.
    void run();

  private:
    class Offer;
    std::unique_ptr<Offer> offer_;
};

/// This machine's addresses on its networks.
std::vector<std::string> network_addresses();

/// A text as a QR code (ISO/IEC 18004), in lines of half blocks: what is light is drawn, for a dark
/// terminal.
std::vector<std::string> qr_code(const std::string& text);

}  // namespace dewtrail
