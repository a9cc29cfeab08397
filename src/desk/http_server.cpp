#include "desk/http_server.h"

#include "desk/responses.h"
#include "shared/error.h"

#include <boost/asio/co_spawn.hpp>
#include <boost/asio/detached.hpp>
#include <boost/asio/redirect_error.hpp>
#include <boost/asio/ssl/context.hpp>
#include <boost/asio/steady_timer.hpp>
#include <boost/asio/use_awaitable.hpp>
#include <boost/beast/core/flat_buffer.hpp>
#include <boost/beast/core/tcp_stream.hpp>
#include <boost/beast/http/empty_body.hpp>
#include <boost/beast/http/error.hpp>
#include <boost/beast/http/parser.hpp>
#include <boost/beast/http/read.hpp>
#include <boost/beast/http/write.hpp>
#include <boost/beast/ssl/ssl_stream.hpp>

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

template <typename Stream>
asio::awaitable<void> send(Stream &stream, Response answer, unsigned version, bool keep_alive) {
    answer.version(version);
    answer.keep_alive(keep_alive);
    answer.prepare_payload();
    beast::get_lowest_layer(stream).expires_after(kAnswerTime);
    boost::system::error_code error;
    co_await http::async_write(stream, answer, into(error));
}

/// Tells a client that waits for it (Expect) that the body may come.
template <typename Stream> asio::awaitable<void> invite_body(Stream &stream, const Request &head) {
    if (beast::iequals(head[http::field::expect], "100-continue")) {
        http::response<http::empty_body> go_on(http::status::continue_, head.version());
        boost::system::error_code error;
        co_await http::async_write(stream, go_on, into(error));
    }
}

/// Reads one request and answers it; whether another one may follow.
template <typename Stream>
asio::awaitable<bool> serve_request(Stream &stream, beast::flat_buffer &buffer,
                                    const HttpHandler &handler) {
    Parser parser;
    parser.header_limit(kHeaderLimit);
    parser.body_limit(kMostOfAny); // of each kind of request once its head is known
    boost::system::error_code error;
    beast::get_lowest_layer(stream).expires_after(kHeaderTime);
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
    beast::get_lowest_layer(stream).expires_after(kBodyTime);
    co_await http::async_read(stream, buffer, parser, into(error));
    if (error == http::error::body_limit) {
        co_await send(stream, too_long(), version, false);
    }
    if (error) {
        co_return false;
    }
    beast::get_lowest_layer(stream).expires_never();
    Request request = parser.release();
    const bool keep_alive = request.keep_alive();
    Response answer = co_await handler.answer(std::move(request));
    co_await send(stream, std::move(answer), version, keep_alive);
    co_return keep_alive;
}

/// Answers what comes over an open connection, one after the other.
template <typename Stream>
asio::awaitable<void> serve_stream(Stream &stream, const HttpHandler &handler) {
    beast::flat_buffer buffer;
    bool goes_on = true;
    while (goes_on) {
        goes_on = co_await serve_request(stream, buffer, handler);
    }
}

} // namespace

struct HttpServer::Encryption {
    asio::ssl::context context{asio::ssl::context::tls_server};
};

HttpServer::HttpServer(asio::io_context &context, const tcp::endpoint &place,
                       const std::optional<TlsFiles> &tls)
    : acceptor_(context, place) {
    if (!tls) {
        return;
    }
    encryption_ = std::make_unique<Encryption>();
    asio::ssl::context &rules = encryption_->context;
    rules.set_options(asio::ssl::context::default_workarounds | asio::ssl::context::no_sslv2 |
                      asio::ssl::context::no_sslv3 | asio::ssl::context::no_tlsv1 |
                      asio::ssl::context::no_tlsv1_1);
    boost::system::error_code error;
    rules.use_certificate_chain_file(tls->certificate.string(), error);
    if (error) {
        throw InputError({"command line", 0, "--certificate"}, error.message(),
                         "a certificate in PEM");
    }
    rules.use_private_key_file(tls->key.string(), asio::ssl::context::pem, error);
    if (error) {
        throw InputError({"command line", 0, "--key"}, error.message(),
                         "the key of the certificate in PEM");
    }
}

HttpServer::~HttpServer() = default;

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
    boost::system::error_code ignored;
    if (!encryption_) {
        beast::tcp_stream stream(std::move(socket));
        co_await serve_stream(stream, handler_);
        stream.socket().shutdown(tcp::socket::shutdown_send, ignored);
        co_return;
    }
    beast::ssl_stream<beast::tcp_stream> stream(std::move(socket), encryption_->context);
    beast::get_lowest_layer(stream).expires_after(kHeaderTime);
    boost::system::error_code error;
    co_await stream.async_handshake(asio::ssl::stream_base::server, into(error));
    if (error) {
        co_return;
    }
    co_await serve_stream(stream, handler_);
    beast::get_lowest_layer(stream).expires_after(kHeaderTime);
    co_await stream.async_shutdown(into(ignored));
}

} // namespace cospot::desk
