"""The two shipped blocks on the people of the survey."""
