// tsdav, told by tick-tasks.py what to do: a line of JSON in, a line of JSON out.
import {createInterface} from 'node:readline';
import {createDAVClient} from 'tsdav';

const [, , serverUrl, username, password] = process.argv;
let client, collection;

const does = {
  async begin() {
    client = await createDAVClient({serverUrl, credentials: {username, password}, authMethod: 'Basic', defaultAccountType: 'caldav'});
    const found = await client.fetchCalendars();
    if (found.length !== 1 || String(found[0].components) !== 'VTODO') throw new Error(`found ${JSON.stringify(found)}`);
    collection = {...found[0], objects: [], syncToken: undefined, objectMultiGet: client.calendarMultiGet};
    return does.sync();
  },
  async sync() {
    const before = collection.objects;
    const now = await client.smartCollectionSync({collection, method: 'webdav', detailedResult: true});
    const {created, updated, deleted} = now.objects;
    const gone = new Set([...updated, ...deleted].map((o) => o.url));
    collection = {...now, objects: [...before.filter((o) => !gone.has(o.url)), ...created, ...updated]};
    return {changed: created.length + updated.length + deleted.length};
  },
  async tasks() {
    return {objects: collection.objects};
  },
  async put({url, etag, data}) {
    const answer = await client.updateCalendarObject({calendarObject: {url, etag, data}});
    return {status: answer.status};
  },
};

for await (const line of createInterface({input: process.stdin})) {
  const what = JSON.parse(line);
  console.log(JSON.stringify(await does[what.do](what)));
}
