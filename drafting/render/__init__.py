"""What puts a drawing on a page: SVG and PDF, each library behind one door."""
