#pragma once

#include "desk/http_types.h"

#include <boost/asio/awaitable.hpp>
#include <boost/asio/io_context.hpp>
#include <boost/asio/ip/tcp.hpp>

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <functional>
#include <memory>
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

/// Files in PEM for a server that encrypts.
struct TlsFiles {
    std::filesystem::path certificate; ///< with the chain that leads to it
    std::filesystem::path key;
};

/// HTTP/1.1 on one port, one thread: bounded headers, bodies, times and numbers of connections.
class HttpServer {
public:
    /// Listens at once; port 0 takes a free one. With files it encrypts (TLS 1.2 or later). Throws
    /// boost::system::system_error where the port is taken, and InputError for files that are no
    /// certificate and its key.
    HttpServer(boost::asio::io_context &context, const boost::asio::ip::tcp::endpoint &place,
               const std::optional<TlsFiles> &tls = {});
    ~HttpServer();
    HttpServer(const HttpServer &) = delete;
    HttpServer &operator=(const HttpServer &) = delete;

    [[nodiscard]] std::uint16_t port() const { return acceptor_.local_endpoint().port(); }
    /// Answers until the context is stopped.
    void serve(HttpHandler handler);

private:
    boost::asio::awaitable<void> accept_connections();
    boost::asio::awaitable<void> serve_connection(boost::asio::ip::tcp::socket socket);

    struct Encryption;

    boost::asio::ip::tcp::acceptor acceptor_;
    std::unique_ptr<Encryption> encryption_; ///< none: it does not encrypt
    HttpHandler handler_;
    std::size_t connections_ = 0;
};

} // namespace cospot::desk
