"""Running the real thing in tests: the server as `bucktail serve`, and a phone as Chromium."""
