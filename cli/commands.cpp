#include "command.hpp"

namespace idlepoint::cli {

const std::vector<Command>& all_commands() {
  static const std::vector<Command> commands = {draft_command(),
                                                check_command(),
                                                readings_command(),
                                                preset_command(),
                                                powerup_command(),
                                                poweroff_command(),
                                                hazards_command(),
                                                swap_command(),
                                                shelf_command(),
                                                fault_command(),
                                                diagnose_command(),
                                                spread_command(),
                                                warmup_command(),
                                                crossover_command(),
                                                fit_command(),
                                                capacitor_command(),
                                                sheet_command(),
                                                writeup_command()};
  return commands;
}

}  // namespace idlepoint::cli
