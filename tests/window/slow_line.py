"""A line that takes its time: passes what comes in at one port on to another, each way late by so many
milliseconds, however much is on its way. Usage: slow_line.py FROM-PORT TO-PORT MILLISECONDS-EACH-WAY"""

import asyncio
import sys

PORT, TO, LATE = int(sys.argv[1]), int(sys.argv[2]), float(sys.argv[3]) / 1000.0


async def passed_on(reader, writer):
    loop = asyncio.get_running_loop()
    on_its_way = asyncio.Queue()

    async def arrives():
        while True:
            due, data = await on_its_way.get()
            await asyncio.sleep(max(0.0, due - loop.time()))
            if not data:
                writer.close()
                return
            writer.write(data)
            await writer.drain()

    arriving = asyncio.create_task(arrives())
    try:
        while data := await reader.read(1 << 16):
            on_its_way.put_nowait((loop.time() + LATE, data))
    except ConnectionError:
        pass
    on_its_way.put_nowait((loop.time() + LATE, b""))
    try:
        await arriving
    except ConnectionError:
        pass


async def line(reader, writer):
    try:
        far_reader, far_writer = await asyncio.open_connection("127.0.0.1", TO)
    except OSError:
        writer.close()
        return
    await asyncio.gather(passed_on(reader, far_writer), passed_on(far_reader, writer))


async def main():
    server = await asyncio.start_server(line, "127.0.0.1", PORT)
    async with server:
        await server.serve_forever()


asyncio.run(main())
