-- Each line of the file LOAD_LINES is the body of a request to LOAD_PATH, one after the other.
local bodies = {}
for line in io.lines(os.getenv('LOAD_LINES')) do bodies[#bodies + 1] = line end
local path = os.getenv('LOAD_PATH')
local count = 0
function request()
    count = count % #bodies + 1
    return wrk.format('POST', path, {['Content-Type'] = 'application/json'}, bodies[count])
end
