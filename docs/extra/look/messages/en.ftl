before-title = Have ready
