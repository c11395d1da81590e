#include "viewer/terminal/pocket/page_server.hpp"

#include <fmt/format.h>
#include <ifaddrs.h>
#include <net/if.h>
#include <qrencode.h>

#include <boost/asio/io_context.hpp>
#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/signal_set.hpp>
#include <boost/beast/core.hpp>
#include <boost/beast/http.hpp>
#include <chrono>
#include <csignal>
#include <optional>

#include "greens/input_error.hpp"
#include "viewer/files/whole_file.hpp"

namespace dewtrail {
namespace {

namespace asio = boost::asio;
namespace beast = boost::beast;
namespace http = boost::beast::http;
using tcp = asio::ip::tcp;
using Failed = boost::system::error_code;

/// One browser's connection: a request, its answer, and so on. It lives as long as one of the two
/// is on its way.
class Visit : public std::enable_shared_from_this<Visit> {
  public:
    Visit(tcp::socket socket, const std::string& page) : stream_(std::move(socket)), page_(page) {}

    void read() {
        request_.emplace();
        request_->header_limit(8192);
        request_->body_limit(0);
        stream_.expires_after(longest_wait);
        http::async_read(stream_, buffer_, *request_,
                         [self = shared_from_this()](Failed failed, std::size_t) {
                             if (!failed) self->answer();
                         });
    }

  private:
    static constexpr auto longest_wait = std::chrono::seconds(20);

    void answer() {
        const auto& asked = request_->get();
        const bool reads = asked.method() == http::verb::get || asked.method() == http::verb::head;
        const bool found = reads && asked.target() == "/";
        answer_ = {};
        answer_.version(asked.version());
        answer_.keep_alive(asked.keep_alive());
        answer_.result(found   ? http::status::ok
                       : reads ? http::status::not_found
                               : http::status::method_not_allowed);
        answer_.set(http::field::content_type,
                    found ? "text/html; charset=utf-8" : "text/plain; charset=utf-8");
        answer_.set(http::field::cache_control, "no-store");
        answer_.set("X-Content-Type-Options", "nosniff");
        if (!reads) answer_.set(http::field::allow, "GET, HEAD");
        const std::string& body = found ? page_ : nothing;
        answer_.content_length(body.size());
        if (asked.method() != http::verb::head) answer_.body() = {body.data(), body.size()};
        write();
    }

    void write() {
        stream_.expires_after(longest_wait);
        http::async_write(stream_, answer_,
                          [self = shared_from_this()](Failed failed, std::size_t) {
                              if (!failed && self->answer_.keep_alive()) self->read();
                          });
    }

    inline static const std::string nothing = "There is nothing here but the page itself, at /\n";

    beast::tcp_stream stream_;
    beast::flat_buffer buffer_{16384};
    std::optional<http::request_parser<http::empty_body>> request_;
    http::response<http::span_body<const char>> answer_;
    const std::string& page_;
};

tcp::endpoint place(const std::string& address, int port) {
    Failed failed;
    const auto known = asio::ip::make_address(address, failed);
    if (failed)
        throw InputError(
            fmt::format("'{}' is no address of a machine", address),
            "Give it in numbers, like 192.168.1.20; leave it out for this machine alone.");
    return {known, static_cast<unsigned short>(port)};
}

}  // namespace

class PageServer::Offer {
  public:
    Offer(std::string page, const tcp::endpoint& at) : page_(std::move(page)), door_(context_) {
        try {
            door_.open(at.protocol());
            door_.set_option(tcp::acceptor::reuse_address(true));
            door_.bind(at);
            door_.listen();
        } catch (const boost::system::system_error& error) {
            throw OutsideError(fmt::format("the page cannot be offered at {} port {}: {}",
                                           at.address().to_string(), at.port(),
                                           error.code().message()));
        }
    }

    tcp::endpoint at() const { return door_.local_endpoint(); }

    void run() {
        asio::signal_set told_to_end(context_, SIGINT, SIGTERM);
        told_to_end.async_wait([this](Failed, int) { context_.stop(); });
        welcome();
        context_.run();
    }

  private:
    void welcome() {
        door_.async_accept([this](Failed failed, tcp::socket socket) {
            if (!failed) std::make_shared<Visit>(std::move(socket), page_)->read();
            welcome();
        });
    }

    std::string page_;
    asio::io_context context_{1};
    tcp::acceptor door_;
};

PageServer::PageServer(std::string page, const std::string& address, int port)
    : offer_(std::make_unique<Offer>(std::move(page), place(address, port))) {}

PageServer::~PageServer() = default;

std::string PageServer::url() const {
    const tcp::endpoint at = offer_->at();
    std::string host = at.address().to_string();
    if (at.address().is_unspecified()) {
        const auto own = network_addresses();
        host = own.empty() ? "127.0.0.1" : own.front();
    } else if (at.address().is_v6()) {
        host = "[" + host + "]";
    }
    return fmt::format("http://{}:{}/", host, at.port());
}

bool PageServer::only_here() const {
    return offer_->at().address().is_loopback();
}

void PageServer::run() {
    offer_->run();
}

std::vector<std::string> network_addresses() {
    ifaddrs* all = nullptr;
    if (getifaddrs(&all) != 0) return {};
    const std::unique_ptr<ifaddrs, decltype(&freeifaddrs)> owned(all, &freeifaddrs);
    std::vector<std::string> addresses;
    for (const ifaddrs* one = all; one; one = one->ifa_next) {
        const bool up = (one->ifa_flags & IFF_UP) && !(one->ifa_flags & IFF_LOOPBACK);
        if (!up || !one->ifa_addr || one->ifa_addr->sa_family != AF_INET) continue;
        const auto* in = reinterpret_cast<const sockaddr_in*>(one->ifa_addr);
        addresses.push_back(asio::ip::make_address_v4(ntohl(in->sin_addr.s_addr)).to_string());
    }
    return addresses;
}

std::vector<std::string> qr_code(const std::string& text) {
    const std::unique_ptr<QRcode, decltype(&QRcode_free)> code(
        QRcode_encodeString8bit(text.c_str(), 0, QR_ECLEVEL_M), &QRcode_free);
    if (!code) return {};
    constexpr int margin = 4;  // that the standard asks for
    const auto dark = [&](int column, int row) {
        const bool inside = column >= 0 && row >= 0 && column < code->width && row < code->width;
        return inside && (code->data[row * code->width + column] & 1);
    };
    constexpr const char* halves[] = {"█", "▄", "▀", " "};  // which of the two are light
    std::vector<std::string> lines;
    for (int row = -margin; row < code->width + margin; row += 2) {
        std::string line;
        for (int column = -margin; column < code->width + margin; ++column)
            line += halves[(dark(column, row) ? 1 : 0) + (dark(column, row + 1) ? 2 : 0)];
        lines.push_back(line);
    }
    return lines;
}

}  // namespace dewtrail
