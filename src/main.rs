//! The `stillroom` command.

fn main() -> std::process::ExitCode {
    stillroom::cli::run()
}
