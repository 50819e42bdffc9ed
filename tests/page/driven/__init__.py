"""The page in a real browser: Debian's chromium, driven by Playwright; nothing is downloaded."""
