#include "program/command_line.h"
#include "shared/interruption.h"

#include <iostream>
#include <string>
#include <vector>

int main(int argc, char **argv) {
    const std::vector<std::string> arguments(argv + 1, argv + argc);
    cospot::heed_interruptions();
    const int code = cospot::run_command_line(arguments, std::cin, std::cout, std::cerr);
    cospot::end_if_interrupted();
    return code;
}
