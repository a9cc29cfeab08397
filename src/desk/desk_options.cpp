#include "desk/desk_options.h"

#include "shared/text.h"

#include <boost/asio/ip/address.hpp>

#include <charconv>
#include <string>

namespace cospot::desk {

namespace {

namespace po = boost::program_options;
using boost::asio::ip::tcp;

constexpr int kHighestPort = 65535;

std::uint16_t port_of(const CommandOptions &options) {
    const int port = options.get<int>("port");
    if (port < 0 || port > kHighestPort) {
        throw bad_option("port", std::to_string(port), "0 to 65535");
    }
    return static_cast<std::uint16_t>(port);
}

/// ADDRESS:PORT in numbers, [ADDRESS]:PORT for version 6.
tcp::endpoint place_of(const std::string &text) {
    const std::size_t colon = text.rfind(':');
    const InputError fault =
        bad_option("listen", in_quotes(text),
                   "an address of this computer and a port, such as 192.168.1.20:8080");
    if (colon == std::string::npos) {
        throw fault;
    }
    std::string host = text.substr(0, colon);
    if (host.starts_with('[') && host.ends_with(']')) {
        host = host.substr(1, host.size() - 2);
    }
    boost::system::error_code error;
    const auto address = boost::asio::ip::make_address(host, error);
    std::uint16_t port = 0;
    const char *const end = text.data() + text.size();
    if (error || address.is_unspecified() ||
        std::from_chars(text.data() + colon + 1, end, port).ptr != end || port == 0) {
        throw fault;
    }
    return {address, port};
}

std::optional<ClassOptions> class_options(const CommandOptions &options) {
    const auto listen = options.text("listen");
    const auto certificate = options.text("certificate");
    const auto key = options.text("key");
    if (options.has("class") != listen.has_value()) {
        throw bad_option(listen ? "listen" : "class", listen ? in_quotes(*listen) : "no address",
                         "--class and --listen ADDRESS:PORT together");
    }
    if (certificate.has_value() != key.has_value() || (certificate && !listen)) {
        throw bad_option("certificate", "one without the other, or without a class",
                         "--class with --certificate FILE and --key FILE");
    }
    if (!listen) {
        return std::nullopt;
    }
    ClassOptions classroom{.place = place_of(*listen), .tls = {}};
    if (certificate) {
        classroom.tls = TlsFiles{*certificate, *key};
    }
    return classroom;
}

} // namespace

CommandOptions desk_options() {
    CommandOptions options(
        "cospot [--library FILE] desk [options]",
        "Opens the library as pages in the browser of this computer: plates, runs, tables,\n"
        "purity, the library itself. Nobody else reaches them, and nothing is sent\n"
        "elsewhere. What is entered is kept in a folder beside the library. Ctrl-C ends it.");
    auto add = options.add();
    add("port", po::value<int>()->default_value(0, ""), "of this computer (else a free one)");
    add("sheets", po::value<std::string>(), "folder of the sheets (else LIBRARY.sheets)");
    add("no-browser", "print the address only");
    add("class", "let others in the room read, and submit sheets of their own");
    add("listen", po::value<std::string>(),
        "ADDRESS:PORT of this computer under which they reach it");
    add("certificate", po::value<std::string>(),
        "certificate (PEM), so that what they send is encrypted");
    add("key", po::value<std::string>(), "the certificate's key (PEM)");
    add("pages", po::value<std::string>(),
        "for contributors: folder with the files of the pages, instead of those built in");
    return options;
}

DeskOptions read_desk_options(const CommandOptions &options, const std::filesystem::path &library) {
    return {.port = port_of(options),
            .sheets = options.text("sheets").value_or(library.string() + ".sheets"),
            .pages = options.text("pages").value_or(""),
            .opens_browser = !options.has("no-browser"),
            .classroom = class_options(options)};
}

} // namespace cospot::desk
