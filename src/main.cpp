#include "command_line.h"

#include <iostream>
#include <string>
#include <vector>

int main(int argc, char **argv) {
    const std::vector<std::string> arguments(argv + 1, argv + argc);
    return cospot::run_command_line(arguments, std::cin, std::cout, std::cerr);
}
