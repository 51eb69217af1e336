"""One opening as acts with their lines of the sheet, and what comes before what."""
