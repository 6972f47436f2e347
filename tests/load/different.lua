-- Every request a hole not asked for before: thread, finish and material from lists, a depth of its own.
local threads = {'3/8-16 UNC-2B', '1/2-13 UNC-2B', '1/4-20 UNC-2B', '5/16-24 UNF-2B', '#10-32 UNF-2B', '1/4-28 UNF-2B', '5/8-11 UNC-2B'}
local materials = {'4140', '6061-T6', '304', '1018'}
local finishes = {'', ',"finish":"ASTM B633 Fe/Zn 5"', ',"finish":"ASTM B633 Fe/Zn 8"'}
local count = 0
local seed = 0
function setup(thread) thread:set('seed', math.random(1, 1000000)) end
function init(args) math.randomseed(tonumber(args[1] or '1') + seed); count = math.random(0, 1000000000) end
function request()
    count = count + 1
    local body = string.format(
        '{"id":"KRP-%d","thread":"%s","hole":{"type":"blind","full_thread_depth":%.9f},"material":"%s"%s}',
        count, threads[count % 7 + 1], 0.5 + (count % 900000007) * 1e-9, materials[count % 4 + 1], finishes[count % 3 + 1])
    return wrk.format('POST', '/v1/hole-specs', {['Content-Type'] = 'application/json'}, body)
end
