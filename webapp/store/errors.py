"""Errors of the store.

StoreError
  NotInStore   nothing has this key
  Taken        the key, login or serial number belongs to something else
  Refused      the change would break a rule that the store keeps
"""


class StoreError(Exception):
    """Any refusal of the store; the sentence is fit for the screen."""


class NotInStore(StoreError):  # noqa: N818
    def __init__(self, noun: str, key: str):
        super().__init__(f"There is no {noun} {key!r} here. It may be mistyped, or not have been sent yet.")
        self.noun = noun
        self.key = key


class Taken(StoreError):  # noqa: N818
    def __init__(self, noun: str, name: str, value: str):
        super().__init__(f"Another {noun} already has the {name} {value!r}. Choose a different one.")
        self.noun = noun
        self.name = name
        self.value = value


class Refused(StoreError):  # noqa: N818
    """``code`` names the rule."""

    def __init__(self, code: str, sentence: str):
        super().__init__(sentence)
        self.code = code
