//! Quillbore: the window, and the commands without a window.
