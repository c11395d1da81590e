#error "this build must not need the window library"
