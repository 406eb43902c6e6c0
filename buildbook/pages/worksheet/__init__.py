"""The worksheet of an estimate. Private."""
