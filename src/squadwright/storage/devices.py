"""Second devices in the database: a few rows a day."""

from sqlalchemy import Connection, delete, insert, select

from squadwright.model.device import Device
from squadwright.storage import log_tables
from squadwright.storage.documents import from_document, to_document


def devices(connection: Connection) -> tuple[Device, ...]:
    """All of them."""
    query = select(log_tables.device.c.document).order_by(log_tables.device.c.id)
    return tuple(from_document(Device, d) for d in connection.execute(query).scalars())


def device_of_token(connection: Connection, token_hash: str) -> Device | None:
    """The one that has joined with a token."""
    table = log_tables.device
    query = select(table.c.document).where(table.c.token_hash == token_hash)
    document = connection.execute(query).scalars().first()
    return None if document is None else from_document(Device, document)


def put_device(connection: Connection, device: Device) -> None:
    """Add one, or put it in place of the one with its id."""
    drop_device(connection, device.id)
    row = {"id": device.id, "token_hash": device.token_hash, "document": to_document(device)}
    connection.execute(insert(log_tables.device).values(row))


def drop_device(connection: Connection, device_id: str) -> None:
    """Forget one."""
    connection.execute(delete(log_tables.device).where(log_tables.device.c.id == device_id))
