"""Pictures of a design, for paper and screen. They know designs and predictions, never how those were made."""
