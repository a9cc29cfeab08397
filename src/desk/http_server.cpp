#include "desk/http_server.h"

#include <boost/asio/co_spawn.hpp>
#include <boost/asio/detached.hpp>
#include <boost/asio/redirect_error.hpp>
#include <boost/asio/steady_timer.hpp>
#include <boost/asio/use_awaitable.hpp>
#include <boost/beast/core/flat_buffer.hpp>
#include <boost/beast/core/tcp_stream.hpp>
#include <boost/beast/http/empty_body.hpp>
#include <boost/beast/http/error.hpp>
#include <boost/beast/http/parser.hpp>
#include <boost/beast/http/read.hpp>
#include <boost/beast/http/write.hpp>

#include <chrono>
#include <exception>
#include <limits>
#include <string>
#include <utility>

namespace cospot::desk {

namespace asio = boost::asio;
namespace beast = boost::beast;
using asio::use_awaitable;
using asio::ip::tcp;

namespace {

constexpr std::size_t kMostConnections = 256;
constexpr std::uint32_t kHeaderLimit = 16 * 1024;
constexpr std::uint64_t kMostOfAny = std::numeric_limits<std::uint64_t>::max();
constexpr auto kHeaderTime = std::chrono::seconds(15);
constexpr auto kBodyTime = std::chrono::seconds(30);
constexpr auto kAnswerTime = std::chrono::seconds(30);
constexpr auto kPause = std::chrono::milliseconds(100);

using Parser = http::request_parser<http::string_body>;

asio::redirect_error_t<asio::use_awaitable_t<>> into(boost::system::error_code &error) {
    return asio::redirect_error(use_awaitable, error);
}

Response too_long() {
    return response(http::status::payload_too_large, "text/plain; charset=utf-8",
                    "The request is longer than this page may send.\n");
}

asio::awaitable<void> send(beast::tcp_stream &stream, Response answer, unsigned version,
                           bool keep_alive) {
    answer.version(version);
    answer.keep_alive(keep_alive);
    answer.prepare_payload();
    stream.expires_after(kAnswerTime);
    boost::system::error_code error;
    co_await http::async_write(stream, answer, into(error));
}

/// Tells a client that waits for it (Expect) that the body may come.
asio::awaitable<void> invite_body(beast::tcp_stream &stream, const Request &head) {
    if (beast::iequals(head[http::field::expect], "100-continue")) {
        http::response<http::empty_body> go_on(http::status::continue_, head.version());
        boost::system::error_code error;
        co_await http::async_write(stream, go_on, into(error));
    }
}

/// Reads one request and answers it; whether another one may follow.
asio::awaitable<bool> serve_request(beast::tcp_stream &stream, beast::flat_buffer &buffer,
                                    const HttpHandler &handler) {
    Parser parser;
    parser.header_limit(kHeaderLimit);
    parser.body_limit(kMostOfAny); // of each kind of request once its head is known
    boost::system::error_code error;
    stream.expires_after(kHeaderTime);
    co_await http::async_read_header(stream, buffer, parser, into(error));
    if (error) {
        co_return false;
    }
    const Request &head = parser.get();
    const unsigned version = head.version();
    if (auto refused = handler.refuse(head)) {
        co_await send(stream, std::move(*refused), version, false);
        co_return false;
    }
    const std::size_t limit = handler.body_limit(head);
    if (parser.content_length().value_or(0) > limit) {
        co_await send(stream, too_long(), version, false);
        co_return false;
    }
    parser.body_limit(limit);
    co_await invite_body(stream, head);
    stream.expires_after(kBodyTime);
    co_await http::async_read(stream, buffer, parser, into(error));
    if (error == http::error::body_limit) {
        co_await send(stream, too_long(), version, false);
    }
    if (error) {
        co_return false;
    }
    stream.expires_never();
    Request request = parser.release();
    const bool keep_alive = request.keep_alive();
    Response answer = co_await handler.answer(std::move(request));
    co_await send(stream, std::move(answer), version, keep_alive);
    co_return keep_alive;
}

} // namespace

HttpServer::HttpServer(asio::io_context &context, const asio::ip::address &address,
                       std::uint16_t port)
    : acceptor_(context, tcp::endpoint(address, port)) {}

void HttpServer::serve(HttpHandler handler) {
    handler_ = std::move(handler);
    asio::co_spawn(acceptor_.get_executor(), accept_connections(), asio::detached);
}

asio::awaitable<void> HttpServer::accept_connections() {
    asio::steady_timer timer(acceptor_.get_executor());
    for (;;) {
        boost::system::error_code error;
        if (connections_ >= kMostConnections) { // the next ones wait in the queue of the system
            timer.expires_after(kPause);
            co_await timer.async_wait(into(error));
            continue;
        }
        tcp::socket socket = co_await acceptor_.async_accept(into(error));
        if (error == asio::error::operation_aborted) {
            co_return;
        }
        if (error) { // no file handles left, say
            timer.expires_after(kPause);
            co_await timer.async_wait(into(error));
            continue;
        }
        ++connections_;
        asio::co_spawn(acceptor_.get_executor(), serve_connection(std::move(socket)),
                       [this](const std::exception_ptr &) { --connections_; });
    }
}

asio::awaitable<void> HttpServer::serve_connection(tcp::socket socket) {
    beast::tcp_stream stream(std::move(socket));
    beast::flat_buffer buffer;
    while (co_await serve_request(stream, buffer, handler_)) {
    }
    boost::system::error_code ignored;
    stream.socket().shutdown(tcp::socket::shutdown_send, ignored);
}

Response response(http::status status, std::string_view type, std::string body) {
    Response answer(status, 11);
    answer.set(http::field::content_type, beast::string_view(type.data(), type.size()));
    answer.set(http::field::cache_control, "no-store");
    answer.set("X-Content-Type-Options", "nosniff");
    answer.set("Referrer-Policy", "no-referrer");
    answer.set("Cross-Origin-Opener-Policy", "same-origin");
    answer.set("Cross-Origin-Resource-Policy", "same-origin");
    answer.set(
        "Content-Security-Policy",
        "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; "
        "connect-src 'self'; frame-src 'self'; frame-ancestors 'self'; base-uri 'none'; "
        "form-action 'none'");
    answer.body() = std::move(body);
    return answer;
}

} // namespace cospot::desk
