//! The solver as it runs in the bench page: texts in, JSON out, over three functions of the C ABI. All that it says is said by
//! the library; here is only how a text comes in and goes out, and nowhere else in the house is anything unsafe.
//!
//! The page asks for room ([`still_room`]), writes a text of UTF-8 into it and hands it over ([`still_ask`]): what comes back
//! is the address of the answer's length, four bytes with the smallest first, and behind them the answer, until the next
//! question. A fault of the program traps, and the page starts the solver anew.

use std::cell::RefCell;

thread_local! {
    /// What the page writes its question into.
    static QUESTION: RefCell<Vec<u8>> = const { RefCell::new(Vec::new()) };
    /// The last answer, its length before it.
    static ANSWER: RefCell<Vec<u8>> = const { RefCell::new(Vec::new()) };
}

/// Room for a question of so many bytes.
// SAFETY: no other function of this name is linked in.
#[unsafe(no_mangle)]
pub extern "C" fn still_room(bytes: usize) -> *mut u8 {
    QUESTION.with_borrow_mut(|question| {
        *question = vec![0; bytes];
        question.as_mut_ptr()
    })
}

/// Answers the question that was written into the room.
// SAFETY: no other function of this name is linked in.
#[unsafe(no_mangle)]
pub extern "C" fn still_ask() -> *const u8 {
    let question = QUESTION.take();
    let answer = stillroom::publish::answer(&String::from_utf8_lossy(&question));
    let length = u32::try_from(answer.len()).unwrap_or(0);
    ANSWER.with_borrow_mut(|place| {
        *place = [&length.to_le_bytes(), answer.as_bytes()].concat();
        place.as_ptr()
    })
}
