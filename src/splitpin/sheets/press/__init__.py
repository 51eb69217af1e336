"""What all documents share: language and wording, paper, PDF, codes to scan, the running order, base page."""
