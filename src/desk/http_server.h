#pragma once

#include "desk/http_types.h"

#include <boost/asio/awaitable.hpp>
#include <boost/asio/io_context.hpp>
#include <boost/asio/ip/tcp.hpp>

#include <cstddef>
#include <cstdint>
#include <functional>
#include <optional>

namespace cospot::desk {

/// What answers requests.
struct HttpHandler {
    /// The refusal of a request of which only the head was read; nothing where its body may come.
    std::function<std::optional<Response>(const Request &head)> refuse;
    /// How long the body of a request may be, in bytes.
    std::function<std::size_t(const Request &head)> body_limit;
    std::function<boost::asio::awaitable<Response>(Request request)> answer;
};

/// HTTP/1.1 on one port, one thread: bounded headers, bodies, times and numbers of connections.
class HttpServer {
public:
    /// Listens at once; port 0 takes a free one. Throws boost::system::system_error where the port
    /// is taken.
    HttpServer(boost::asio::io_context &context, const boost::asio::ip::address &address,
               std::uint16_t port);

    [[nodiscard]] std::uint16_t port() const { return acceptor_.local_endpoint().port(); }
    /// Answers until the context is stopped.
    void serve(HttpHandler handler);

private:
    boost::asio::awaitable<void> accept_connections();
    boost::asio::awaitable<void> serve_connection(boost::asio::ip::tcp::socket socket);

    boost::asio::ip::tcp::acceptor acceptor_;
    HttpHandler handler_;
    std::size_t connections_ = 0;
};

/// A response with that text; it is never stored by the browser, and is no more than it says.
[[nodiscard]] Response response(http::status status, std::string_view type, std::string body);

} // namespace cospot::desk
