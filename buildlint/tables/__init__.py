"""Facts of the trade and of published standards, as data with the source above each table. No logic stands here."""
