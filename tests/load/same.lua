-- The same request again and again.
local body = '{"id":"KRP-4105-D1","thread":"3/8-16 UNC-2B","hole":{"type":"blind","full_thread_depth":0.75},"material":"4140","finish":"ASTM B633 Fe/Zn 8"}'
function request()
    return wrk.format('POST', '/v1/hole-specs', {['Content-Type'] = 'application/json'}, body)
end
