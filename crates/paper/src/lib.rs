//! Page model, drawings and PDF of the papers: returns bytes, writes no file.
