//! The program: reads the command line and runs one command.

fn main() {}
