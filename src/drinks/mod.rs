//! From the bottle to the glass: what one guest gets, a batch of it, another part in it.

pub mod added;
pub mod batch;
mod bottled;
mod bottles;
pub mod figures;
mod for_a_guest;
pub mod glass;
mod parted;
mod poured_out;
pub mod swapped;

pub use batch::{DrinkBatch, Slush, batch, ice_share};
pub(crate) use bottled::{BottledPart, HeldOtherwise, bottled_parts, held_otherwise};
pub use bottles::bottles_to_state;
pub use figures::Figures;
pub use glass::{Glass, GlassCost, glass};
pub use poured_out::{IceInside, WaterOfIce};
pub use swapped::{GlassSwap, swap_in_glass};
