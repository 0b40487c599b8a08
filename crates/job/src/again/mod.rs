//! What takes a job up again: undo, what an undo must not take back, the next order.

pub mod history;
pub mod order_text;
pub mod pasted_runs;
pub mod reorder;
pub mod shop_history;
mod withdrawals;
