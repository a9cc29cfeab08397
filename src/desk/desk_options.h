#pragma once

#include "desk/http_server.h"
#include "options/options.h"

#include <cstdint>
#include <filesystem>
#include <optional>

namespace cospot::desk {

/// How others in the room reach the desk.
struct ClassOptions {
    boost::asio::ip::tcp::endpoint place;
    std::optional<TlsFiles> tls;
};

/// What a call of `desk` asks for.
struct DeskOptions {
    std::uint16_t port = 0;
    std::filesystem::path sheets;
    std::filesystem::path pages; ///< empty: those built in
    bool opens_browser = true;
    std::optional<ClassOptions> classroom; ///< none: nobody else is let in
};

[[nodiscard]] CommandOptions desk_options();

/// Throws InputError where options contradict each other or an address is none.
[[nodiscard]] DeskOptions read_desk_options(const CommandOptions &options,
                                            const std::filesystem::path &library);

} // namespace cospot::desk
