"""How often the forecast was right, over the club and of each athlete."""
