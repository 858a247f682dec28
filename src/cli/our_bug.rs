//! Exit code 3: what happens when the fault is ours and not the card's.

use std::panic::{self, UnwindSafe};
use std::process::ExitCode;

/// The exit code of our own bug, as `--help` states it.
const OUR_BUG: u8 = 3;

/// Runs `job`; a panic in it becomes a sentence that says what to send, and exit code 3.
///
/// Whatever was to be written stays unwritten: files are put in place only when they are whole.
pub(crate) fn caught(job: impl FnOnce() -> ExitCode + UnwindSafe) -> ExitCode {
    panic::set_hook(Box::new(|panicked| anstream::eprint!("{}", report(&panicked.to_string()))));
    panic::catch_unwind(job).unwrap_or(ExitCode::from(OUR_BUG))
}

/// What is said of a panic.
fn report(panicked: &str) -> String {
    format!(
        "error: this is a fault of stillroom {}, not of your card\n\
         nothing was written; no figure above this line is to be trusted\n\
         please send the people who make it the command that you typed, the card and these lines:\n\
         {panicked}\n",
        env!("CARGO_PKG_VERSION")
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_panic_ends_with_3_and_says_whose_fault_it_is() {
        let before = panic::take_hook();
        let codes = [caught(|| panic!("a drawn line has no end")), caught(|| ExitCode::from(1))];
        panic::set_hook(before);
        assert_eq!(codes, [ExitCode::from(3), ExitCode::from(1)]);
        let said = report("src/x.rs:1: a drawn line has no end");
        assert!(said.contains("not of your card") && said.contains("a drawn line has no end"), "{said}");
    }
}
