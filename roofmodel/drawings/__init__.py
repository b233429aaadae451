"""What a drawing or picture shows, and the file formats it is written in."""
