#include "desk/browser.h"
#include "desk/desk.h"
#include "options/command.h"
#include "options/options.h"
#include "shared/error.h"

#include <boost/asio/ip/address_v4.hpp>
#include <boost/asio/signal_set.hpp>
#include <boost/system/system_error.hpp>
#include <fmt/format.h>

#include <csignal>
#include <cstdlib>
#include <ostream>

namespace cospot {

namespace {

namespace po = boost::program_options;
namespace asio = boost::asio;

constexpr int kHighestPort = 65535;

CommandOptions desk_options() {
    CommandOptions options(
        "cospot desk [options]",
        "Opens the library as pages in the browser of this computer: plates, runs, "
        "tables, purity,\nthe library itself. Nobody else reaches them, and nothing "
        "is sent elsewhere. What is\nentered is kept in a folder beside the library. "
        "Ctrl-C ends it.");
    options.add()("port", po::value<int>()->default_value(0, ""),
                  "of this computer (else a free one)");
    options.add()("sheets", po::value<std::string>(), "folder of the sheets (else LIBRARY.sheets)");
    options.add()("no-browser", "print the address only");
    options.add()(
        "pages", po::value<std::string>(),
        "for contributors: folder with the files of the pages, instead of those built in");
    return options;
}

std::uint16_t port_of(const CommandOptions &options) {
    const int port = options.get<int>("port");
    if (port < 0 || port > kHighestPort) {
        throw bad_option("port", std::to_string(port), "0 to 65535");
    }
    return static_cast<std::uint16_t>(port);
}

} // namespace

int run_desk(const Invocation &invocation) {
    CommandOptions options = desk_options();
    if (!options.parse(invocation.arguments, invocation.out)) {
        return kDone;
    }
    asio::io_context context(1);
    // Ends in order instead of at once: what runs is stopped, and undone where it is unfinished.
    asio::signal_set signals(context, SIGINT, SIGTERM, SIGHUP);
    signals.async_wait([&](const boost::system::error_code &, int) { context.stop(); });
    desk::HttpServer server(context, asio::ip::address_v4::loopback(), port_of(options));
    const desk::RequestGuard guard(desk::random_key(), server.port());
    const std::filesystem::path sheets =
        options.text("sheets").value_or(invocation.library.string() + ".sheets");
    setenv("COSPOT_PROGRESS", "1", 1); // NOLINT(concurrency-mt-unsafe): before any thread
    desk::Desk desk({.library = invocation.library,
                     .sheets = sheets,
                     .pages = options.text("pages").value_or("")},
                    guard, [&] { asio::post(context, [&] { context.stop(); }); });
    server.serve(desk.handler());

    // A message, since results wait for the end of the verb where nobody sees them at once.
    invocation.err << "The desk of " << invocation.library.string() << " is open at\n  "
                   << guard.address() << "\nCtrl-C ends it.\n"
                   << std::flush;
    if (!options.has("no-browser") && !desk::open_browser(guard.address())) {
        invocation.err << "No browser was found here: open the address in one.\n";
    }
    context.run();
    desk.close();
    invocation.out << "The desk is closed; the sheets are kept in " << sheets.string() << '\n';
    return kDone;
}

} // namespace cospot
